using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules.Care;

/// <summary>
/// Winter storage against made climates: a yearly wave of temperature around a mean. Root limits are those of the species
/// files; margins are estimates (config/techniques/winter-storage.yaml).
/// </summary>
public class WinterStorageTests
{
    private static readonly LocalDate Winter = new(2025, 1, 10);
    private static readonly Tree Maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);

    [Theory]
    // Roots die at -10; in at 4 above that, the ball of a medium pot 2 warmer than the bench, of a small one not.
    [InlineData(TreeSize.M, Placement.Open, -8.0, Verdict.DoNow)]
    [InlineData(TreeSize.M, Placement.Open, -7.9, Verdict.Leave)]
    [InlineData(TreeSize.S, Placement.Open, -6.0, Verdict.DoNow)]
    [InlineData(TreeSize.S, Placement.Open, -5.9, Verdict.Leave)]
    [InlineData(TreeSize.M, Placement.Sheltered, -8.9, Verdict.Leave)]
    [InlineData(TreeSize.M, Placement.Sheltered, -9.0, Verdict.DoNow)]
    public void Forecast_NearTheRootLimit_BringsIn(TreeSize size, Placement placement, double nightC, Verdict verdict)
    {
        // Past winters of the place went down to -2, so only the forecast brings it in.
        var answer = Answer(Maple with { Size = size, Placement = placement }, Winter, 14, [2, nightC, 2], wave: 8);
        Assert.Equal(verdict, answer.Verdict);
        if (verdict == Verdict.DoNow)
            Assert.Equal("winter-trigger", answer.Reasons[0].Id);
    }

    [Fact]
    public void YoungRoots_ComeInEarlier()
    {
        // Three above the -10 of mature roots where the species does not say; box says -3.9, so the bench counts from -1.9 on.
        Assert.Equal(Verdict.DoNow, Answer(Maple with { Stage = TreeStage.TrunkBuilding }, Winter, 14, [2, -5, 2], wave: 8).Verdict);
        Assert.Equal(Verdict.Leave, Answer(Maple with { Stage = TreeStage.TrunkBuilding }, Winter, 14, [2, -4.9, 2], wave: 8).Verdict);
        var box = Trees.Tree("buxus", TreeStage.TrunkBuilding, Goal.ThickenTrunk);
        Assert.Equal(Verdict.DoNow, Answer(box, Winter, 16, [2, -1.9, 2], wave: 8).Verdict);
        Assert.Equal(Verdict.Leave, Answer(box, Winter, 16, [2, -1.8, 2], wave: 8).Verdict);
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-40)]
    public void ColdWinters_AreMovesInAndOut_InBothHemispheres(double latitude)
    {
        var today = latitude > 0 ? new LocalDate(2025, 7, 1) : new LocalDate(2025, 1, 1);
        var windows = Windows(Maple, today, 8, latitude);
        var moves = windows.Where(window => window.Key.Year == GrowthYear.Of(today, Hemisphere.OfLatitude(latitude)).Year + 1).ToList();
        Assert.Equal([1, 2], moves.Select(window => window.Key.Pass));
        Assert.True(moves[0].Opens.Likely <= moves[0].Closes.Likely && moves[0].Closes.Likely < moves[1].Opens.Likely);
        var (autumn, spring) = latitude > 0 ? (new LocalDate(2025, 12, 1), new LocalDate(2026, 3, 15)) : (new LocalDate(2025, 6, 1), new LocalDate(2025, 9, 15));
        Assert.InRange(Math.Abs(Period.DaysBetween(autumn, moves[0].Opens.Likely!.Value)), 0, 50);
        Assert.InRange(Math.Abs(Period.DaysBetween(spring, moves[1].Opens.Likely!.Value)), 0, 50);
        Assert.All(moves, window => Assert.Equal(WindowState.Forecast, window.State));
    }

    [Theory]
    [InlineData("ficus")]
    [InlineData("acer-palmatum")]
    public void Tropics_HaveNoWinterStorage(string species)
    {
        var tree = Trees.Tree(species, TreeStage.Refinement, Goal.Slender);
        var today = new LocalDate(2025, 10, 20);
        Assert.Empty(Windows(tree, today, 27, 5, wave: 1));
        var answer = Answer(tree, today, 27, [22, 22, 22, 22, 22, 22, 22], latitude: 5, wave: 1);
        Assert.Equal(Verdict.Leave, answer.Verdict);
    }

    [Fact]
    public void WarmClimateTree_ComesInForAColdWeek_NotForOneCoolNight()
    {
        var ficus = Trees.Tree("ficus", TreeStage.Refinement, Goal.Slender);
        var today = new LocalDate(2025, 9, 10);
        Assert.Equal(Verdict.Wait, Answer(ficus, today, 11, [15, 9, 15, 15, 15, 15, 15]).Verdict);
        Assert.Equal(Verdict.DoNow, Answer(ficus, today, 11, [10, 9, 9, 9, 9, 10, 9]).Verdict);
    }

    [Fact]
    public void RestAndLightFrosts_ComeFirst()
    {
        // The place's winters reach the limit; nothing in sight is that cold.
        var autumn = Answer(Maple, new LocalDate(2025, 10, 5), 6, [6, 6, 6, 6, 6, 6, 6]);
        Assert.Equal((Verdict.Wait, "not-open-yet"), (autumn.Verdict, autumn.Reasons[0].Id));
        Assert.Contains("bbch:97", Reading.Canonical(autumn.Opens!.Fields), StringComparison.Ordinal);
        var rested = Answer(Maple, new LocalDate(2025, 12, 10), 6, [-1, -1, -1, -1, -1, -1, -1]);
        Assert.Equal((Verdict.DoNow, "winter-trigger"), (rested.Verdict, rested.Reasons[0].Id));
        Assert.Equal(["water-check", "pest-check"], rested.FollowUps.Select(follow => follow.What));
    }

    [Fact]
    public void Stored_WaitsForBudsOrAWarmBall()
    {
        var moved = Trees.Work("winter-storage", new LocalDate(2024, 12, 1));
        var january = Answer(Maple, new LocalDate(2025, 1, 20), 6, [-3, -3, -12], work: moved);
        Assert.Equal((Verdict.Wait, "in-winter-place"), (january.Verdict, january.Reasons[0].Id));
        var swelling = Answer(Maple, new LocalDate(2025, 3, 1), 6, [2, 2, 2], work: moved, bbch: 1);
        Assert.Equal((Verdict.DoNow, "winter-over"), (swelling.Verdict, swelling.Reasons[0].Id));
        Assert.Equal("out", swelling.Amount[0]["move"]);
        // The looks at water and pests belong to the winter place.
        Assert.Empty(swelling.FollowUps);
    }

    [Theory]
    // The ball has been above 6 for a week; a night at -8 would bring the tree in again, and a forecast errs by a little.
    [InlineData(-6.5, Verdict.Wait)]
    [InlineData(-5.5, Verdict.DoNow)]
    public void WarmBall_EndsTheWinter_UnlessTheForecastBringsItBack(double nightC, Verdict verdict)
    {
        var moved = Trees.Work("winter-storage", new LocalDate(2024, 12, 1));
        Assert.Equal(verdict, Answer(Maple, new LocalDate(2025, 2, 20), 14, [5, 5, nightC], work: moved, bbch: 0, wave: 8).Verdict);
    }

    [Theory]
    // In at -8, at the last call at -9; light frosts alone do not bring back what left.
    [InlineData(-8.5, Verdict.Wait)]
    [InlineData(-9.5, Verdict.DoNow)]
    public void OutAgain_ComesBackAtTheLastCallOnly(double nightC, Verdict verdict)
    {
        var climate = new Climate(47, 6, 13);
        var today = new LocalDate(2025, 2, 20);
        var facts = Trees.Facts(Maple, climate.Site(today), [Trees.Work("winter-storage", new LocalDate(2024, 12, 1)), Trees.Work("winter-storage", new LocalDate(2025, 2, 15))], [Trees.Seen(today) with { Bbch = 0 }]);
        Assert.Equal(verdict, Advisor.Advise(Trees.Craft, facts, climate.Garden(today, [5, 5, nightC], null)).Advice("winter-storage").Verdict);
    }

    [Fact]
    public void InBeforeItRests_ItStays()
    {
        var moved = Trees.Work("winter-storage", new LocalDate(2025, 10, 5));
        var answer = Answer(Maple, new LocalDate(2025, 10, 15), 6, [6, 6, 6, 6, 6, 6, 6], work: moved);
        Assert.Equal((Verdict.Wait, "in-winter-place"), (answer.Verdict, answer.Reasons[0].Id));
    }

    [Fact]
    public void TooColdAPlace_IsSaid_NeverRefused()
    {
        // Olive: zones 8b to 10b. Maple: zone 5b, roots in a pot die at -10; zone 6a means -23.3 C.
        var olive = Answer(Trees.Tree("olea-europaea", TreeStage.Refinement, Goal.Slender), new LocalDate(2025, 7, 1), 8, [15], zone: "7b");
        Assert.Contains(olive.Reasons, reason => reason.Id == "not-hardy-here" && reason.Text.Contains("7b", StringComparison.Ordinal));
        Assert.Contains(Answer(Maple, new LocalDate(2025, 7, 1), 8, [15], zone: "6a").Reasons, reason => reason.Id == "roots-not-hardy-here");
        Assert.DoesNotContain(Answer(Maple, new LocalDate(2025, 7, 1), 8, [15], zone: "8b").Reasons, reason => reason.Id.EndsWith("hardy-here", StringComparison.Ordinal));
    }

    private static TechniqueAdvice Answer(
        Tree tree, LocalDate today, double meanC, double[] nightsC, string? zone = null, WorkRecord? work = null, int? bbch = null, double latitude = 47, double wave = 13)
    {
        var climate = new Climate(latitude, meanC, wave);
        var facts = Trees.Facts(tree, climate.Site(today), work is null ? [] : [work], bbch is null ? [] : [Trees.Seen(today) with { Bbch = bbch }]);
        return Advisor.Advise(Trees.Craft, facts, climate.Garden(today, nightsC, zone)).Advice("winter-storage");
    }

    private static List<WorkWindow> Windows(Tree tree, LocalDate today, double meanC, double latitude, double wave = 13)
    {
        var climate = new Climate(latitude, meanC, wave);
        var nights = Enumerable.Repeat(climate.Day(today).MinC, 7).ToArray();
        return [.. WindowFinder.Find(Trees.Craft, Trees.Facts(tree, climate.Site(today)), climate.Garden(today, nights, null)).Windows
            .Where(window => window.Key.Technique == "winter-storage")];
    }

    /// <summary>A yearly wave with the coldest day on 20 January or 20 July, each tenth day 6 C colder, minima 4 C under the mean.</summary>
    private sealed record Climate(double Latitude, double MeanC, double WaveC)
    {
        public SiteWeather Site(LocalDate today)
        {
            var from = today.PlusYears(-12);
            return new SiteWeather(Latitude, today, TemperatureSeries.From(Enumerable.Range(0, Period.DaysBetween(from, today) + 1).Select(day => Day(from.PlusDays(day)))));
        }

        public DailyTemperature Day(LocalDate date)
        {
            var turn = Latitude > 0 ? 20 : 201;
            var cold = date.DayOfYear % 10 == 0 ? WaveC / 2 : 0;
            var mean = MeanC - WaveC * Math.Cos(2 * Math.PI * (date.DayOfYear - turn) / 365.25) - cold;
            return new DailyTemperature(date, mean - 4, mean + 4);
        }

        public GardenFacts Garden(LocalDate today, double[] nightsC, string? zone) => new()
        {
            Today = today,
            Latitude = Latitude,
            BenchOffsetC = 0,
            Zone = zone is null ? null : HardinessZone.Parse(zone),
            Days =
            [
                .. Enumerable.Range(-14, 15).Select(ago => Day(today.PlusDays(ago))).Select(day => new DayWeather(day.Date, day.MinC, day.MaxC, 0, 10, null, DayKind.Observed)),
                .. nightsC.Select((minC, night) => new DayWeather(today.PlusDays(night + 1), minC, minC + 8, 0, 10, null, DayKind.Forecast))
            ]
        };
    }
}
