using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

public class NoticeFinderTests
{
    private static readonly LocalDate Today = new(2026, 4, 15);

    [Theory]
    [InlineData(9, 30, WindowState.Forecast, "")]
    [InlineData(8, 30, WindowState.Forecast, "Opening 8")]
    [InlineData(-20, 30, WindowState.Open, "Opening -20")]
    [InlineData(-20, 8, WindowState.Open, "Opening -20, Closing 8")]
    [InlineData(-20, 8, WindowState.Held, "Opening -20, Held 2")]
    [InlineData(-1, 2, WindowState.Open, "Opening -1")]
    [InlineData(-20, 8, WindowState.Done, "")]
    [InlineData(-20, -8, WindowState.Missed, "")]
    [InlineData(2, 8, WindowState.Withdrawn, "")]
    public void Window_SaysWhatItsStateAndDatesCallFor(int opens, int closes, WindowState state, string expected)
    {
        var window = RoadBench.Window(1, "Old maple", Today.PlusDays(opens), Today.PlusDays(closes), state);
        window = window with { Body = window.Body with { Window = window.Body.Window with { HeldUntil = state == WindowState.Held ? Today.PlusDays(2) : null } } };
        Assert.Equal(expected, Said(Find(window)));
    }

    [Fact]
    public void Frost_IsUrgent_OnEachOfItsEveningsOnly()
    {
        // Two nights, from the evening of the 15th on; the window closes on the morning after the second.
        string On(int day, WindowState state, bool isNightOn = false) =>
            Said(NoticeFinder.Find([RoadBench.Frost(1, "Old maple", Today, Today.PlusDays(1), state)], null, Today.PlusDays(day), isNightOn), Today.PlusDays(day));
        Assert.Equal("", On(-1, WindowState.Forecast));
        Assert.Equal("Protection 0!", On(0, WindowState.Open));
        Assert.Equal("Protection 0!", On(1, WindowState.Open));
        Assert.Equal("", On(2, WindowState.Missed));
        Assert.Equal("", On(0, WindowState.Done));
        // In the small hours the night that is on is still to be met, whatever the next one brings.
        Assert.Equal("Protection 0!", On(0, WindowState.Open, isNightOn: true));
        Assert.Equal("Protection -1!, Protection 0!", On(1, WindowState.Open, isNightOn: true));
        Assert.Equal("Protection -1!", On(2, WindowState.Open, isNightOn: true));
    }

    [Fact]
    public void Promise_FallsDueAndDoesNotClose()
    {
        var window = RoadBench.Window(1, "Old maple", Today.PlusDays(-6), Today.PlusDays(3), WindowState.Open);
        window = window with { Body = window.Body with { Window = window.Body.Window with { Key = window.Key with { Pass = PromiseWindows.Pass } } } };
        Assert.Equal("Opening -6", Said(Find(window)));
    }

    [Fact]
    public void Plan_NamesTheVisitsOfTheComingWeek_OfWindowsThatStillStand()
    {
        var open = RoadBench.Window(1, "Old maple", Today.PlusDays(-9), Today.PlusDays(60), WindowState.Open);
        var done = RoadBench.Window(2, "Young elm", Today.PlusDays(-9), Today.PlusDays(60), WindowState.Done);
        PlannedVisit[] visits = [RoadBench.Visit(open, Today), RoadBench.Visit(open, Today.PlusDays(8)) with { Visit = 2 }, RoadBench.Visit(open, Today.PlusDays(9)) with { Visit = 3 },
            RoadBench.Visit(done, Today), RoadBench.Visit(open, Today) with { Visit = 4, Date = null }];
        var found = NoticeFinder.Find([open, done], new StoredPlan(Today, Today.PlusDays(40), visits, []), Today);
        Assert.Equal("Opening -9, Planned 0, Planned 8", Said(found));
        Assert.Equal([0, 1, 2], found.Select(due => due.Job.Visit));
    }

    [Theory]
    [InlineData(NoticeKind.Opening, "tip-pinch", false, 2)]
    [InlineData(NoticeKind.Closing, "tip-pinch", false, 3)]
    [InlineData(NoticeKind.Planned, "tip-pinch", false, 0)]
    [InlineData(NoticeKind.Protection, "heat-shade", false, 1)]
    [InlineData(NoticeKind.Protection, "winter-storage", false, 2)]
    [InlineData(NoticeKind.Protection, "frost-protection", true, 0)]
    [InlineData(NoticeKind.Opening, "tip-pinch", true, 8)]
    [InlineData(NoticeKind.Planned, "tip-pinch", true, 8)]
    public void Lead_IsLongEnoughToAct(NoticeKind kind, string technique, bool weekly, int days) => Assert.Equal(
        Today.PlusDays(-days), Lead.From(kind, Today, technique, weekly ? new DigestTimes(new LocalTime(7, 0), IsoDayOfWeek.Monday) : null));

    [Theory]
    [InlineData(7, 0)]
    [InlineData(12, 1)]
    [InlineData(20, 1)]
    public void Lead_OfThePlan_InTheAfternoon_IsADay(int hour, int days) =>
        Assert.Equal(Today.PlusDays(-days), Lead.From(NoticeKind.Planned, Today, "tip-pinch", new DigestTimes(new LocalTime(hour, 0), null)));

    private static IReadOnlyList<NoticeDue> Find(StoredWindow window) => NoticeFinder.Find([window], null, Today);

    private static string Said(IEnumerable<NoticeDue> found, LocalDate? today = null) =>
        string.Join(", ", found.Select(due => $"{due.Job.Kind} {Period.DaysBetween(today ?? Today, due.Due)}{(due.IsUrgent ? "!" : "")}"));
}
