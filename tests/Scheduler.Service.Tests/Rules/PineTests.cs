using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Candles, needles and buds of pines (common practice, estimates).</summary>
public class PineTests
{
    private static readonly MadeSeason Spring = new() { Today = new LocalDate(2025, 5, 20), DaysToFrost = 150, WarmDays = 35, HeatAfterCd = 14 };
    private static readonly Tree WhitePine = Trees.Tree("pinus-parviflora", TreeStage.Refinement, Goal.Slender);
    private static readonly Tree BlackPine = Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender);

    [Theory]
    [InlineData("C1", 1.5, Verdict.Wait)]
    [InlineData("C1", 3.0, Verdict.DoNow)]
    [InlineData("C2", null, Verdict.DoNow)]
    [InlineData("C3", 6.0, Verdict.Missed)]
    public void Candles_ArePinchedWhileNeedlesLieFlat(string candle, double? cm, Verdict verdict) =>
        Assert.Equal(verdict, Advise(WhitePine, Spring, seen: [Candle(candle) with { ShootCm = cm }]).Advice("candle-pinch").Verdict);

    [Fact]
    public void Candles_InTheSouth_ArePinchedInItsSpring()
    {
        var south = Spring with { Latitude = -43, Today = new LocalDate(2025, 11, 20) };
        Assert.Equal(Verdict.DoNow, Advise(WhitePine, south, seen: [Trees.Seen(south.Today) with { Candle = "C2" }]).Advice("candle-pinch").Verdict);
        Assert.Equal(Verdict.Missed, Advise(WhitePine, south with { Today = new LocalDate(2026, 3, 1), DaysToFrost = 60, WarmDays = 120 }).Advice("candle-pinch").Verdict);
    }

    [Theory]
    [InlineData(Extent.Light)]
    [InlineData(Extent.Normal)]
    public void RootWorkEvenLight_BarsThePinch(Extent extent)
    {
        var answer = Advise(WhitePine, Spring, [Trees.Work("repotting", Spring.Today.PlusDays(-50)) with { Extent = extent }], [Candle("C2")]).Advice("candle-pinch");
        Assert.Equal((Verdict.NotAllowed, "roots-rebuilding"), (answer.Verdict, answer.Reasons[0].Id));
    }

    [Fact]
    public void TwoFlushPine_IsPinchedOnlyWhereCandlesStayOn()
    {
        IReadOnlyList<WorkRecord> fed = [Trees.Work("feeding", Spring.Today.PlusDays(-40))];
        var barred = Advise(BlackPine, Spring, fed, [Candle("C2")]).Advice("candle-pinch");
        Assert.Equal((Verdict.NotAllowed, "other-technique-does-this"), (barred.Verdict, barred.Reasons[0].Id));
        // A sound tree keeps its candles, and so does one whose owner asks to even them up.
        Assert.Equal(Verdict.DoNow, Advise(BlackPine with { Health = Health.Sound }, Spring, fed, [Candle("C2")]).Advice("candle-pinch").Verdict);
        var asking = BlackPine with { Requests = [new TechniqueRequest("candle-pinch", "evening-up")] };
        Assert.Equal(Verdict.DoNow, Advise(asking, Spring, fed, [Candle("C2")]).Advice("candle-pinch").Verdict);
    }

    [Fact]
    public void OneFlushPine_NeverLosesWholeCandles()
    {
        var answer = Advise(WhitePine with { Requests = [new TechniqueRequest("decandling")] }, Spring, seen: [Candle("C2")]).Advice("decandling");
        Assert.Equal((Verdict.NotAllowed, "no-second-flush"), (answer.Verdict, answer.Reasons[0].Id));
    }

    [Theory]
    [InlineData(null, "medium", "weak", Verdict.Wait)]
    [InlineData("medium-first", "medium", "weak", Verdict.Wait)]
    [InlineData("one-day", "strong", "weak", Verdict.Leave)]
    [InlineData("weak-first", "weak", "strong", Verdict.Wait)]
    public void Candles_GoInTheOrderTheOwnerChose(string? order, string cut, string left, Verdict second)
    {
        var season = CandleDay;
        var pine = BlackPine with { Size = TreeSize.S, Settings = order is null ? new Dictionary<string, string>() : new() { ["7"] = order } };
        var answer = Advise(pine, season, [Trees.Work("feeding", season.Today.PlusDays(-60))], [Trees.Seen(season.Today) with { Candle = "C3" }]).Advice("decandling");
        var first = answer.Parts.Single(part => part.Mode == "stage-1");
        Assert.Equal(Verdict.DoNow, first.Verdict);
        Assert.Contains(first.Amount, entry => Shoots(entry).Contains(cut) && entry.ContainsKey("cutAt"));
        Assert.Contains(first.Amount, entry => Shoots(entry).Contains(left) && Equals(entry.GetValueOrDefault("take"), "none"));
        Assert.Equal(order != "one-day", first.FollowUps.Any(followUp => followUp.What == "stage-2"));
        Assert.Equal(second, answer.Parts.Single(part => part.Mode == "stage-2").Verdict);
    }

    [Theory]
    [InlineData(95, Verdict.DoNow)]
    [InlineData(120, Verdict.Wait)]
    [InlineData(79, Verdict.Missed)]
    public void Candles_CountedByDaysAlone(int daysToFrost, Verdict verdict)
    {
        var season = CandleDay with { DaysToFrost = daysToFrost, HeatAfterDays = 20 };
        var pine = BlackPine with { Size = TreeSize.S, Settings = new Dictionary<string, string> { ["8"] = "days" } };
        var answer = Advise(pine, season, [Trees.Work("feeding", season.Today.PlusDays(-60))], [Trees.Seen(season.Today) with { Candle = "C3" }]).Advice("decandling");
        Assert.Equal(verdict, answer.Parts.Single(part => part.Mode == "stage-1").Verdict);
    }

    [Fact]
    public void OldNeedles_WaitForRestAndAfterCandlesForSummerNeedles()
    {
        var autumn = new MadeSeason { Today = new LocalDate(2025, 9, 20), DaysToFrost = 30, WarmDays = 150 };
        var rest = Trees.Seen(autumn.Today) with { Bbch = 91, Hardened = true };
        Assert.Equal(Verdict.DoNow, Advise(BlackPine, autumn, seen: [rest]).Advice("needle-plucking").Verdict);
        var cut = Trees.Work("decandling", autumn.Today.PlusDays(-30)) with { Mode = "stage-1" };
        Assert.Equal(Verdict.Wait, Advise(BlackPine, autumn, [cut], [rest]).Advice("needle-plucking").Verdict);
        Assert.Equal(Verdict.DoNow, Advise(BlackPine, autumn, [cut], [rest with { Flush = 2 }]).Advice("needle-plucking").Verdict);
        var white = Advise(WhitePine, autumn, seen: [rest]).Advice("needle-plucking");
        Assert.Contains(white.Amount, entry => Equals(entry.GetValueOrDefault("take"), "yellowing-or-third-year"));
        Assert.Equal("not-for-this-group", Advise(Trees.Tree("picea", TreeStage.Refinement, Goal.Slender), autumn).Advice("needle-plucking").Reasons[0].Id);
    }

    [Fact]
    public void OldNeedles_ComeOffInWinterTooUnlessTheyDidInAutumn()
    {
        var winter = new MadeSeason { Today = new LocalDate(2025, 1, 20), DaysToFrost = 280, WarmDays = 0 };
        Assert.Equal(Verdict.DoNow, Advise(BlackPine, winter).Advice("needle-plucking").Verdict);
        var autumn = Advise(BlackPine, winter, [Trees.Work("needle-plucking", new LocalDate(2024, 10, 20))]).Advice("needle-plucking");
        Assert.Equal((Verdict.Wait, "not-open-yet"), (autumn.Verdict, autumn.Reasons[0].Id));
        // Once candles move it waits for the needles of this year; it is never missed.
        Assert.Equal(Verdict.Wait, Advise(BlackPine, Spring, seen: [Candle("C2")]).Advice("needle-plucking").Verdict);
    }

    [Fact]
    public void Buds_AreThinnedWhereMoreThanTwoStand()
    {
        Assert.Equal(Verdict.Ask, Thin(null).Verdict);
        Assert.Equal(Verdict.Leave, Thin(2).Verdict);
        var three = Thin(3);
        Assert.Equal(Verdict.DoNow, three.Verdict);
        Assert.Contains(three.Amount, entry => Equals(entry.GetValueOrDefault("take"), "strongest-middle"));

        TechniqueAdvice Thin(int? candles) => Advise(WhitePine, Spring, seen: [Candle("C1") with { CandlesPerPoint = candles }]).Advice("bud-thinning");
    }

    [Theory]
    [InlineData(null, 3)]
    [InlineData("always-two", 2)]
    public void InnerBuds_StayByTheOwnersChoice(string? choice, int kept)
    {
        var autumn = new MadeSeason { Today = new LocalDate(2025, 9, 20), DaysToFrost = 30, WarmDays = 150 };
        var pine = BlackPine with { Settings = choice is null ? new Dictionary<string, string>() : new() { ["18"] = choice } };
        var answer = Advise(pine, autumn, seen: [Trees.Seen(autumn.Today) with { Bbch = 91, Hardened = true, ShootsPerPoint = 3 }]).Advice("bud-thinning");
        Assert.Equal(Verdict.DoNow, answer.Verdict);
        var inner = answer.Amount.Single(entry => Equals(entry.GetValueOrDefault("crownZone"), "inner"));
        Assert.Equal(kept, Convert.ToInt32(inner["keepPerPoint"], null));
    }

    // Late enough in heat and early enough in days for a small pine: 880 degree-days above 10 are to come.
    private static MadeSeason CandleDay => new()
    {
        Today = new LocalDate(2025, 7, 8), DaysToFrost = 104, WarmDays = 80, HeatAfterCd = 17, HeatAfterDays = 73
    };

    private static IEnumerable<string> Shoots(IReadOnlyDictionary<string, object> entry) =>
        entry.GetValueOrDefault("shoots") is System.Collections.IEnumerable list and not string ? list.Cast<object>().Select(one => one.ToString()!) : [];

    private static Observation Candle(string candle) => Trees.Seen(Spring.Today) with { Candle = candle };

    private static IReadOnlyList<TechniqueAdvice> Advise(
        Tree tree, MadeSeason season, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null) =>
        Advisor.Advise(Trees.Craft, Trees.Facts(tree, season.Site(), work, seen), Trees.Garden(season));
}
