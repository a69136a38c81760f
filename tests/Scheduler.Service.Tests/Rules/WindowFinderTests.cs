using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

public class WindowFinderTests
{
    private static readonly LocalDate Winter = new(2025, 2, 10);
    private static readonly MadeClimate North = new(47, Winter);

    [Fact]
    public void Maple_InWinter_HasItsSpringBeforeIt()
    {
        var set = Find(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), North);
        var pinch = Window(set, "tip-pinch", 2025);
        Assert.Equal("Pinch window opens", pinch.Title);
        Assert.Equal(WindowState.Forecast, pinch.State);
        Assert.Equal("top-outgrows-bottom", pinch.Reasons[0].Id);
        Assert.True(pinch.Opens.Early <= pinch.Opens.Likely && pinch.Opens.Likely <= pinch.Opens.Late);
        Assert.True(pinch.Opens.Likely < pinch.Closes.Likely);
        Assert.Equal((40, new Sessions(3, 6)), (pinch.Minutes, pinch.Sessions));
        Assert.Contains("two small leaves", pinch.Amount, StringComparison.Ordinal);
        // Leaves are thinned 120 degree-days after the pinch at the earliest.
        Assert.True(Window(set, "leaf-thinning", 2025).Opens.Likely > pinch.Opens.Likely);
        Assert.NotNull(Window(set, "tip-pinch", 2026).Opens.Likely);
        // Only shoots that were missed are cut back, and none is missed yet.
        Assert.Equal("only-missed-shoots", Refusal(set, "cut-back", 2025).Reasons[0].Id);
    }

    [Fact]
    public void Repotting_Logged_WithdrawsThePinchAndSaysWhy()
    {
        var tree = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var set = Find(tree, North, [Trees.Work("repotting", Winter) with { Extent = Extent.Normal }]);
        Assert.DoesNotContain(set.Windows, window => window.Key is { Technique: "tip-pinch", Year: 2025 });
        Assert.Equal("roots-rebuilding", Refusal(set, "tip-pinch", 2025).Reasons[0].Id);
        Assert.Equal("return-cut", Window(set, "outline-trim", 2025).Key.Mode);
        // The year after, it is pinched again.
        Assert.Equal(WindowState.Forecast, Window(set, "tip-pinch", 2026).State);
        Assert.Equal(WindowState.Done, Window(set, "repotting", 2025).State);
    }

    [Fact]
    public void WarmerSpring_OpensThePinchEarlierUnderTheSameKey()
    {
        var tree = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var march = North with { Today = new LocalDate(2025, 3, 20) };
        var usual = Window(Find(tree, march), "tip-pinch", 2025);
        var warm = Window(Find(tree, march with { WarmerC = 3 }), "tip-pinch", 2025);
        Assert.Equal(usual.Key, warm.Key);
        Assert.InRange(Period.DaysBetween(warm.Opens.Likely!.Value, usual.Opens.Likely!.Value), 2, 40);
    }

    [Fact]
    public void South_HasTheSameWindowsHalfAYearLater()
    {
        var tree = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var north = Window(Find(tree, North), "tip-pinch", 2025);
        var south = Window(Find(tree, new MadeClimate(-47, Winter.PlusDays(181))), "tip-pinch", 2025);
        Assert.Equal(north.Opens.Likely!.Value.PlusDays(182).ToDateOnly().DayNumber, south.Opens.Likely!.Value.ToDateOnly().DayNumber, 4.0);
    }

    [Fact]
    public void LeapDay_IsADayLikeAnother()
    {
        var tree = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var set = Find(tree, new MadeClimate(47, new LocalDate(2024, 2, 29)), [Trees.Work("feeding", new LocalDate(2024, 2, 29))]);
        var pinch = Window(set, "tip-pinch", 2024);
        Assert.InRange(pinch.Opens.Likely!.Value, new LocalDate(2024, 3, 20), new LocalDate(2024, 5, 31));
    }

    [Fact]
    public void Olive_AskedToBudBack_IsStrippedBeforeBudBreakClosesIt()
    {
        var tree = Trees.Tree("olea-europaea", TreeStage.Ramification, Goal.BackBud);
        var climate = new MadeClimate(41, Winter) { MeanC = 15 };
        var facts = Trees.Facts(tree, climate.Site());
        var strip = Window(WindowFinder.Find(Trees.Craft, facts, climate.Garden()), "pre-push-defoliation", 2025);
        Assert.Equal("Defoliate before push", strip.Title);
        Assert.Equal(facts.Current.Band(7).Likely, strip.Closes.Likely);
        Assert.True(strip.Opens.Likely < strip.Closes.Likely);
    }

    [Fact]
    public void StripAndRoots_NeverShareASpring()
    {
        var tree = Trees.Tree("olea-europaea", TreeStage.Ramification, Goal.BackBud);
        var climate = new MadeClimate(41, Winter) { MeanC = 15 };
        var due = Find(tree with { RepottedOn = new LocalDate(2021, 3, 1) }, climate);
        Assert.Equal("normal", Window(due, "repotting", 2025).Key.Mode);
        Assert.Equal("strip-and-roots-apart", Refusal(due, "pre-push-defoliation", 2025).Reasons[0].Id);
        var early = Find(tree with { RepottedOn = new LocalDate(2023, 3, 1) }, climate);
        Assert.NotNull(Window(early, "pre-push-defoliation", 2025));
        Assert.Equal("strip-and-roots-apart", early.Refusals.Single(one => one is { Technique: "repotting", Mode: "normal", Year: 2025 }).Reasons[0].Id);
    }

    [Fact]
    public void TridentMaple_InBranchBuilding_IsCutBackInPasses()
    {
        var set = Find(Trees.Tree("acer-buergerianum", TreeStage.BranchBuilding, Goal.ThickenBranch), North);
        Assert.Equal("pinching-thins", Refusal(set, "tip-pinch", 2025).Reasons[0].Id);
        var passes = set.Windows.Where(window => window.Key is { Technique: "cut-back", Year: 2025 }).OrderBy(window => window.Key.Pass).ToList();
        Assert.True(passes.Count >= 2, "at least two passes");
        Assert.Equal(Enumerable.Range(1, passes.Count), passes.Select(pass => pass.Key.Pass));
        Assert.True(passes.Zip(passes.Skip(1)).All(pair => pair.First.Opens.Likely < pair.Second.Opens.Likely));
        var cut = Trees.Work("cut-back", passes[0].Opens.Likely!.Value.PlusDays(2));
        var later = North with { Today = cut.Date.PlusDays(3) };
        var after = Find(Trees.Tree("acer-buergerianum", TreeStage.BranchBuilding, Goal.ThickenBranch), later, [cut]);
        Assert.Equal(WindowState.Done, Window(after, "cut-back", 2025).State);
        var second = after.Windows.Single(window => window.Key is { Technique: "cut-back", Year: 2025, Pass: 2 });
        Assert.Equal(WindowState.Forecast, second.State);
        Assert.True(second.Opens.Likely > cut.Date.PlusDays(20));
    }

    [Fact]
    public void BlackPine_IsCountedBackFromFrostBySize()
    {
        var small = Window(Find(Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender) with { Size = TreeSize.S }, North with { MeanC = 13 }), "decandling", 2025);
        var large = Window(Find(Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender) with { Size = TreeSize.L }, North with { MeanC = 13 }), "decandling", 2025);
        // Large trees earlier, small ones later: longer needles are wanted there (common practice).
        Assert.True(large.Opens.Likely < small.Opens.Likely);
        Assert.Equal("Remove spring candles", small.Title);
    }

    [Fact]
    public void ShortCoolSummer_LeavesCandlesAlone()
    {
        var set = Find(Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender), new MadeClimate(60, Winter) { MeanC = 4 });
        Assert.DoesNotContain(set.Windows, window => window.Key is { Technique: "decandling", Mode: "stage-2" });
        Assert.Contains(set.Refusals, one => one.Technique == "decandling");
    }

    [Fact]
    public void CoolSummer_DoesNotOpenTheCandlesInWinter()
    {
        // The whole summer has less heat than the band asks for at its opening, but more than at its closing.
        var climate = new MadeClimate(52, Winter) { MeanC = 9 };
        var facts = Trees.Facts(Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender), climate.Site());
        var total = facts.Current.Season.Frost.RemainingCd(10, facts.Current.TodayDay, facts.Current.Season.Frost.AverageDay!.Value - 14);
        Assert.InRange(total, 800, 1200);
        var advice = Advisor.Advise(Trees.Craft, facts, climate.Garden()).Advice("decandling");
        Assert.Equal(Verdict.Wait, advice.Verdict);
        Assert.True(advice.Window!.Opens.Likely > new LocalDate(2025, 4, 15));
    }

    [Fact]
    public void Tropics_OpenByWarmthAndSpringNeverComes()
    {
        var equator = new MadeClimate(2, Winter) { MeanC = 26, AmplitudeC = 1 };
        var fig = Find(Trees.Tree("ficus", TreeStage.Refinement, Goal.Slender), equator);
        Assert.NotNull(Window(fig, "tip-pinch", 2025).Opens.Likely);
        // A maple gets no chill there, so nothing opens and the refusal says so.
        var maple = Find(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), equator);
        Assert.Empty(maple.Windows);
        Assert.Contains(maple.Refusals, one => one is { Technique: "tip-pinch", Year: 2025 } && one.Reasons[0].Text.Contains("not expected", StringComparison.Ordinal));
    }

    [Fact]
    public void NoPastWeather_AsksInsteadOfGuessing()
    {
        var site = new SiteWeather(47, Winter, TemperatureSeries.From([]));
        var facts = Trees.Facts(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), site);
        var garden = new GardenFacts { Today = Winter, Latitude = 47, Days = [] };
        var set = WindowFinder.Find(Trees.Craft, facts, garden);
        Assert.Empty(set.Windows);
        Assert.Equal(Verdict.Ask, Advisor.Advise(Trees.Craft, facts, garden).Advice("tip-pinch").Verdict);
        Assert.Contains(set.Refusals, one => one.Technique == "tip-pinch" && one.Reasons[0].Id == "fact-missing");
    }

    private static WindowSet Find(Tree tree, MadeClimate climate, IReadOnlyList<WorkRecord>? work = null) =>
        WindowFinder.Find(Trees.Craft, Trees.Facts(tree, climate.Site(), work), climate.Garden());

    private static WorkWindow Window(WindowSet set, string technique, int year) =>
        set.Windows.First(window => window.Key.Technique == technique && window.Key.Year == year);

    private static Refusal Refusal(WindowSet set, string technique, int year) =>
        set.Refusals.First(refusal => refusal.Technique == technique && refusal.Year == year);
}

/// <summary>An invented climate: a yearly wave, each year shifted a little, always the same.</summary>
internal sealed record MadeClimate(double Latitude, LocalDate Today)
{
    public double MeanC { get; init; } = 10;
    public double AmplitudeC { get; init; } = 11;
    /// <summary>Days from 1 February 2025 on are so much warmer.</summary>
    public double WarmerC { get; init; }

    public SiteWeather Site()
    {
        var from = Today.PlusYears(-12);
        return new SiteWeather(Latitude, Today, TemperatureSeries.From(Enumerable.Range(0, Period.DaysBetween(from, Today) + 8).Select(day => Day(from.PlusDays(day)))));
    }

    public GardenFacts Garden() => new()
    {
        Today = Today,
        Latitude = Latitude,
        BenchOffsetC = 0,
        WaterAssured = true,
        FrostFreeShelter = true,
        Days = [.. Enumerable.Range(-14, 22).Select(day => Day(Today.PlusDays(day))).Select(day => new DayWeather(day.Date, day.MinC + 6, day.MaxC + 6, 0, 10, null, DayKind.Forecast))]
    };

    private DailyTemperature Day(LocalDate date)
    {
        var day = Period.DaysBetween(new LocalDate(1999, 1, 20), date);
        var wave = Math.Cos(2 * Math.PI * day / 365.2425) * (Latitude < 0 ? 1 : -1);
        var noise = 2 * Math.Sin(day * 0.37) + 1.5 * Math.Sin(day * 0.083);
        var warmer = date >= new LocalDate(2025, 2, 1) ? WarmerC : 0;
        var mean = MeanC + AmplitudeC * wave + noise + warmer;
        return new DailyTemperature(date, mean - 5, mean + 5);
    }
}
