using NodaTime;
using Scheduler.Service.Feeds;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>What a feed tells when trees gather, when plans lose visits, and when its owner changes how it shows them.</summary>
public sealed class FeedVariantsTests : IDisposable
{
    private static readonly TreeWindows[] None = [];
    private readonly FeedBench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task Gathered_OverlappingWindows_AreOneEventOfAllTheirDays()
    {
        var feed = await FeedAsync(FeedGathering.Technique);
        await PlanAsync(Window(1, "Maple", 1, 10), Window(2, "Elm", 10, 20), Window(3, "Oak", 22, 28));
        var events = await EventsAsync(feed);
        Assert.Equal(2, events.Count);
        var both = events.Single(one => one.Value.Contains("Maple", StringComparison.Ordinal)).Value;
        Assert.Contains("SUMMARY:Pinch window opens: Maple\\, Elm\r\n", both, StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:20210401", both, StringComparison.Ordinal);
        Assert.Contains("DTEND;VALUE=DATE:20210421", both, StringComparison.Ordinal);
        Assert.Contains("- Maple: not open yet\\; opens 1 April 2021\\; closes 10 April 2021\\n- Elm:", both, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Gathered_TreesComeAndGo_TheEventStaysAndCountsOn()
    {
        var feed = await FeedAsync(FeedGathering.Technique);
        await PlanAsync(Window(1, "Maple", 1, 10), Window(2, "Elm", 5, 12), Window(3, "Oak", 8, 20));
        var uid = (await EventsAsync(feed)).Keys.Single();
        var before = await _bench.BodyAsync(feed);
        await PlanAsync(Window(1, "Maple", 1, 10), Window(2, "Elm", 5, 12), Window(3, "Oak", 8, 20));
        Assert.Equal(before.Body, (await _bench.BodyAsync(feed)).Body);

        // The maple, whose id began the event, leaves; the oak moves away and becomes an event of its own.
        await PlanAsync(Window(2, "Elm", 5, 12), Window(4, "Lime", 6, 9), Window(3, "Oak", 15, 22), Window(5, "Ash", 9, 13));
        var events = await EventsAsync(feed);
        Assert.Equal(2, events.Count);
        Assert.Contains("SEQUENCE:1\r\n", events[uid], StringComparison.Ordinal);
        Assert.DoesNotContain("Oak", events[uid], StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:0\r\n", events.Single(one => one.Key != uid).Value, StringComparison.Ordinal);

        // They meet again: the larger stays, the smaller is called off and says where its tree went.
        await PlanAsync(Window(2, "Elm", 5, 12), Window(4, "Lime", 6, 9), Window(3, "Oak", 11, 22), Window(5, "Ash", 9, 13));
        events = await EventsAsync(feed);
        Assert.Contains("Oak", events[uid], StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:2\r\n", events[uid], StringComparison.Ordinal);
        var off = events.Single(one => one.Key != uid).Value;
        Assert.Contains("STATUS:CANCELLED", off, StringComparison.Ordinal);
        Assert.Contains("another event of the same work", off, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Change_OfGathering_CallsTheFormerEventsOffForThirtyDaysAndBringsThemBackCounting()
    {
        var feed = await FeedAsync(FeedGathering.Each);
        await PlanAsync(Window(1, "Maple", 1, 30), Window(2, "Elm", 5, 30));
        var single = (await EventsAsync(feed)).Keys.ToList();
        _bench.Clock.AdvanceDays(1);
        feed = await _bench.Keeper.ChangeAsync(feed, feed.Settings with { Gathered = FeedGathering.Technique });
        var events = await EventsAsync(feed);
        Assert.Equal(3, events.Count);
        Assert.All(single, uid => Assert.Contains("STATUS:CANCELLED", events[uid], StringComparison.Ordinal));
        Assert.All(single, uid => Assert.Contains("SEQUENCE:1\r\n", events[uid], StringComparison.Ordinal));
        _bench.Clock.AdvanceDays(30);
        await _bench.Builder.RebuildAsync(feed.Id);
        Assert.Single(await EventsAsync(feed));
        feed = await _bench.Keeper.ChangeAsync(feed, feed.Settings with { Gathered = FeedGathering.Each });
        events = await EventsAsync(feed);
        Assert.All(single, uid => Assert.Contains("SEQUENCE:2\r\n", events[uid], StringComparison.Ordinal));
        Assert.All(single, uid => Assert.Contains("STATUS:TENTATIVE", events[uid], StringComparison.Ordinal));
    }

    [Fact]
    public async Task Change_OfSpanAndTime_KeepsIdentityAndRaisesSequenceAndStamps()
    {
        _bench.SetZone(FeedBench.Garden, "Europe/Berlin");
        var feed = await FeedAsync(FeedGathering.Each);
        await PlanAsync(Window(1, "Maple", 1, 30));
        var uid = (await EventsAsync(feed)).Keys.Single();
        _bench.Clock.AdvanceDays(1);
        feed = await _bench.Keeper.ChangeAsync(feed, feed.Settings with { Span = FeedSpan.Opening });
        var opening = Assert.Single(await EventsAsync(feed)).Value;
        Assert.Contains("DTEND;VALUE=DATE:20210402", opening, StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:1\r\n", opening, StringComparison.Ordinal);
        Assert.Contains("LAST-MODIFIED:20210302T060000Z", opening, StringComparison.Ordinal);
        feed = await _bench.Keeper.ChangeAsync(feed, feed.Settings with { At = new LocalTime(7, 30) });
        var timed = Assert.Single(await EventsAsync(feed));
        Assert.Equal(uid, timed.Key);
        Assert.Contains("DTSTART;TZID=Europe/Berlin:20210401T073000", timed.Value, StringComparison.Ordinal);
        Assert.Contains("DTEND;TZID=Europe/Berlin:20210401T080000", timed.Value, StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:2\r\n", timed.Value, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Europe/Berlin", "2021-03-28", "02:30", "20210328T033000", "20210328T040000")]
    [InlineData("Europe/Berlin", "2021-10-31", "02:45", "20211031T024500", "20211031T031500")]
    [InlineData("America/Santiago", "2021-09-05", "00:15", "20210905T011500", "20210905T014500")]
    [InlineData("Australia/Lord_Howe", "2021-10-03", "02:10", "20211003T024000", "20211003T031000")]
    [InlineData("Africa/Casablanca", "2021-05-16", "02:30", "20210516T033000", "20210516T040000")]
    public async Task Timed_WhereTheClocksChange_NamesTimesThatExistAndEndsAfterItBegins(string zone, string day, string at, string start, string end)
    {
        _bench.SetZone(FeedBench.Garden, zone);
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT0S") with { Span = FeedSpan.Opening, At = ClockTime.Parse(at) });
        var opens = NodaTime.Text.LocalDatePattern.Iso.Parse(day).Value;
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Between(opens, opens.PlusDays(5))));
        var made = Assert.Single(await EventsAsync(feed)).Value;
        Assert.Contains($"DTSTART;TZID={zone}:{start}", made, StringComparison.Ordinal);
        Assert.Contains($"DTEND;TZID={zone}:{end}", made, StringComparison.Ordinal);
        Assert.Contains($"TZID:{zone}\r\n", await _bench.TextAsync(feed), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(FeedGathering.Each)]
    [InlineData(FeedGathering.Technique)]
    public async Task Visit_WithoutAPlace_IsCalledOffForThirtyDaysAndComesBackAsItself(FeedGathering gathered)
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT15H") with { Content = FeedContent.Plan, Gathered = gathered });
        await PlanAsync(Window(1, "Maple", 1, 30));
        var window = Assert.Single(await _bench.WindowsAsync(FeedBench.Garden));
        var visit = new PlannedVisit(window.Id, 1, 1, new LocalDate(2021, 4, 3), 0, 20, 0, FeedSamples.Changed);
        await _bench.VisitAsync(FeedBench.Garden, visit);
        var (uid, _) = Assert.Single(await EventsAsync(feed));
        _bench.Clock.AdvanceDays(1);
        await _bench.VisitAsync(FeedBench.Garden, visit with { Date = null, Sequence = 1, ChangedAt = _bench.Clock.GetCurrentInstant() });
        var off = (await EventsAsync(feed))[uid];
        Assert.Contains("STATUS:CANCELLED", off, StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:1\r\n", off, StringComparison.Ordinal);
        Assert.Contains("no place for this visit", off, StringComparison.Ordinal);
        Assert.DoesNotContain("VALARM", off, StringComparison.Ordinal);
        _bench.Clock.AdvanceDays(29);
        await _bench.Builder.RebuildAsync(feed.Id);
        Assert.Equal(off, (await EventsAsync(feed))[uid]);
        _bench.Clock.AdvanceDays(1);
        await _bench.Builder.RebuildAsync(feed.Id);
        Assert.Empty(await EventsAsync(feed));
        await _bench.VisitAsync(FeedBench.Garden, visit with { Date = new LocalDate(2021, 4, 17), Sequence = 2 });
        var back = (await EventsAsync(feed))[uid];
        Assert.Contains("SEQUENCE:2\r\n", back, StringComparison.Ordinal);
        Assert.Contains("STATUS:TENTATIVE", back, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Upgrade_FeedThatNeverKeptItsEvents_GoesOnFromWhatItTold()
    {
        var feed = await FeedAsync(FeedGathering.Each);
        await PlanAsync(Window(1, "Maple", 1, 30));
        _bench.Clock.AdvanceDays(1);
        await PlanAsync(Window(1, "Maple", 3, 30));
        var before = await _bench.BodyAsync(feed);
        _bench.Run("DELETE FROM feed_events");
        _bench.Clock.AdvanceDays(1);
        await _bench.Builder.RebuildAsync(feed.Id);
        Assert.Equal(before.Body, (await _bench.BodyAsync(feed)).Body);
        await PlanAsync(None);
        Assert.Contains("SEQUENCE:2\r\n", Assert.Single(await EventsAsync(feed)).Value, StringComparison.Ordinal);
    }

    private Task<Service.Feeds.Feed> FeedAsync(FeedGathering gathered) =>
        _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT15H") with { Gathered = gathered });

    private Task PlanAsync(params TreeWindows[] trees) => _bench.PlanAsync(FeedBench.Garden, trees);

    private async Task<Dictionary<string, string>> EventsAsync(Service.Feeds.Feed feed) => FeedSamples.Events(await _bench.TextAsync(feed));

    private static TreeWindows Window(int number, string name, int opens, int closes) =>
        FeedBench.Tree(number, name, FeedSamples.Between(new LocalDate(2021, 4, opens), new LocalDate(2021, 4, closes)));
}
