using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

public class FrostProtectionTests
{
    private static readonly MadeSeason Spring = new() { Today = new LocalDate(2025, 4, 20), DaysToFrost = 180, WarmDays = 10, HeatBeforeCd = 3, HeatAfterCd = 3 };

    [Theory]
    // Act at or below, by phase: orchard fruit at ten per cent kill plus about two degrees, rounded up (Penn State
    // Extension, after Washington EB0419); carrying it over to other species is an estimate.
    [InlineData(1, -5)]
    [InlineData(3, -5)]
    [InlineData(7, -2)]
    [InlineData(9, 0)]
    [InlineData(12, 0)]
    [InlineData(55, 0)]
    [InlineData(60, 1)]
    [InlineData(65, 1)]
    public void Trigger_DependsOnThePhase(int bbch, double actsAtC)
    {
        Assert.Equal(Verdict.DoNow, Answer(bbch, actsAtC).Verdict);
        var warmer = Answer(bbch, actsAtC + 0.2);
        Assert.Equal(Verdict.Wait, warmer.Verdict);
        Assert.Equal(actsAtC, warmer.Opens!.Fields["benchMinC"]);
    }

    [Fact]
    public void FreshRoots_RaiseTheTriggerForSixWeeks()
    {
        Assert.Equal(Verdict.Wait, Answer(1, -1).Verdict);
        Assert.Equal(Verdict.DoNow, Answer(1, -1, repottedDaysAgo: 42).Verdict);
        Assert.Equal(Verdict.Wait, Answer(1, -1, repottedDaysAgo: 43).Verdict);
    }

    [Fact]
    public void Dormant_IsOutOfSeason()
    {
        var season = Spring with { Today = new LocalDate(2025, 1, 20), DaysToFrost = 270, WarmDays = 0, HeatAfterCd = 0, WinterMeanC = 0 };
        var facts = Trees.Facts(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), season.Site());
        Assert.Equal(Verdict.Leave, Advisor.Advise(Trees.Craft, facts, Trees.Garden(season, [-8, -8])).Advice("frost-protection").Verdict);
    }

    [Fact]
    public void WarmClimateTree_ActsAtTen()
    {
        var facts = Trees.Facts(Trees.Tree("ficus", TreeStage.Refinement, Goal.Slender), Spring.Site());
        Assert.Equal(Verdict.DoNow, Advisor.Advise(Trees.Craft, facts, Trees.Garden(Spring, [10, 14])).Advice("frost-protection").Verdict);
        var indoors = Trees.Facts(Trees.Tree("ficus", TreeStage.Refinement, Goal.Slender) with { Placement = Placement.Indoors }, Spring.Site());
        Assert.Equal(Verdict.Leave, Advisor.Advise(Trees.Craft, indoors, Trees.Garden(Spring, [2, 2])).Advice("frost-protection").Verdict);
    }

    [Fact]
    public void ColdSpell_IsOneWindowKnownByItsFirstNight()
    {
        var facts = Facts(12);
        var windows = Windows(facts, Spring, [4, -1, -2, 5, -1, 6, 6]);
        Assert.Equal(2, windows.Count);
        Assert.Equal(Spring.Today.PlusDays(1), windows[0].Opens.Likely);
        Assert.Equal(Spring.Today.PlusDays(3), windows[0].Closes.Likely);
        Assert.Equal(Spring.Year.DayOf(Spring.Today.PlusDays(1)), windows[0].Key.Pass);
        Assert.All(windows, window => Assert.Equal(WindowState.Forecast, window.State));
        // A day later the same night has the same key, and is open when it is tonight.
        var tomorrow = Spring with { Today = Spring.Today.PlusDays(1), WarmDays = 11, DaysToFrost = 179 };
        var later = Windows(Trees.Facts(Tree, tomorrow.Site(), seen: [Trees.Seen(Spring.Today) with { Bbch = 12 }]), tomorrow, [-1, -2, 5, -1, 6, 6]);
        Assert.Equal(windows.Select(window => window.Key), later.Select(window => window.Key));
        Assert.Equal(WindowState.Open, later[0].State);
        // Once its nights are past it has ended; it is not taken back.
        var after = Spring with { Today = Spring.Today.PlusDays(3), WarmDays = 13, DaysToFrost = 177 };
        var garden = Trees.Garden(after, [5, -1, 6, 6]);
        garden = garden with { Days = [.. garden.Days.Select(day => Period.DaysBetween(Spring.Today, day.Date) is 2 or 3 ? new DayWeather(day.Date, -1, day.MaxC, 0, 10, null, day.Kind) : day)] };
        var ended = WindowFinder.Find(Trees.Craft, Trees.Facts(Tree, after.Site(), seen: [Trees.Seen(Spring.Today) with { Bbch = 12 }]), garden).Windows
            .Where(window => window.Key.Technique == "frost-protection").ToList();
        Assert.Equal(windows[0].Key, ended[0].Key);
        Assert.Equal([WindowState.Missed, WindowState.Forecast], ended.Select(window => window.State));
    }

    [Theory]
    // The clock's 0 C for open leaves; shelter keeps 1 C and a cold frame 4 C off (estimates).
    [InlineData(Placement.Open, 0, Verdict.DoNow)]
    [InlineData(Placement.Sheltered, -0.5, Verdict.Wait)]
    [InlineData(Placement.Sheltered, -1, Verdict.DoNow)]
    [InlineData(Placement.ColdFrame, -3.5, Verdict.Wait)]
    [InlineData(Placement.ColdFrame, -4, Verdict.DoNow)]
    public void Placement_KeepsSomeColdOff(Placement placement, double tonightC, Verdict verdict)
    {
        var facts = Facts(12);
        facts = facts with { Tree = facts.Tree with { Placement = placement } };
        Assert.Equal(verdict, Advisor.Advise(Trees.Craft, facts, Trees.Garden(Spring, [tonightC, 8, 8])).Advice("frost-protection").Verdict);
    }

    [Fact]
    public void SecondFlush_IsTenderInAutumnUntilItHasHardened()
    {
        var autumn = new MadeSeason { Today = new LocalDate(2025, 9, 25), DaysToFrost = 12, WarmDays = 150 };
        var elm = Trees.Tree("ulmus-parvifolia", TreeStage.Refinement, Goal.Slender);
        Observation hardened = Trees.Seen(autumn.Today.PlusDays(-80)) with { Bbch = 91, Hardened = true }, second = Trees.Seen(autumn.Today) with { Flush = 2, Hardened = true };
        WorkRecord late = Trees.Work("partial-defoliation", autumn.Today.PlusDays(-30)), early = late with { Date = autumn.Today.PlusDays(-110) };
        Assert.Equal(Verdict.Leave, Frost([], [hardened]));
        Assert.Equal(Verdict.DoNow, Frost([late], [hardened]));
        Assert.Equal(Verdict.Leave, Frost([late], [hardened, second]));
        Assert.Equal(Verdict.Leave, Frost([early], [hardened]));

        Verdict Frost(IReadOnlyList<WorkRecord> work, IReadOnlyList<Observation> seen) =>
            Advisor.Advise(Trees.Craft, Trees.Facts(elm, autumn.Site(), work, seen), Trees.Garden(autumn, [-0.5, 8, 8])).Advice("frost-protection").Verdict;
    }

    [Fact]
    public void MostAdvancedShoots_DecideWhenItActs()
    {
        Observation Look(int? some) => Trees.Seen(Spring.Today) with { Bbch = 3, SomeAtBbch = some };
        Assert.Equal(Verdict.Wait, Frost(Look(null)));
        Assert.Equal(Verdict.DoNow, Frost(Look(10)));

        Verdict Frost(Observation seen) => Advisor.Advise(Trees.Craft,
            Trees.Facts(Trees.Tree("fagus-sylvatica", TreeStage.Refinement, Goal.Slender), Spring.Site(), [], [seen]), Trees.Garden(Spring, [-0.5, 8, 8])).Advice("frost-protection").Verdict;
    }

    [Fact]
    public void UnmeasuredBench_CountsAsClearAndCalm()
    {
        var garden = Trees.Garden(Spring, [1.5, 4, 4]) with { BenchOffsetC = null };
        var answer = Advisor.Advise(Trees.Craft, Facts(12), garden).Advice("frost-protection");
        Assert.Equal(Verdict.DoNow, answer.Verdict);
        Assert.Contains("clear and calm", answer.Reasons[0].Text, StringComparison.Ordinal);
    }

    private static Tree Tree => Trees.Tree("malus", TreeStage.Refinement, Goal.Slender);

    private static TreeFacts Facts(int bbch, int? repottedDaysAgo = null) => Trees.Facts(Tree, Spring.Site(),
        repottedDaysAgo is { } days ? [Trees.Work("repotting", Spring.Today.PlusDays(-days)) with { Extent = Extent.Normal }] : [],
        bbch is >= 51 and < 80
            ? [Trees.Seen(Spring.Today) with { Bbch = bbch }, Trees.Seen(Spring.Today) with { Bbch = 3, Organ = "leaf-buds" }]
            : [Trees.Seen(Spring.Today) with { Bbch = bbch }, Trees.Seen(Spring.Today) with { Bbch = 51, Organ = "flower-buds" }]);

    private static TechniqueAdvice Answer(int bbch, double tonightC, int? repottedDaysAgo = null) =>
        Advisor.Advise(Trees.Craft, Facts(bbch, repottedDaysAgo), Trees.Garden(Spring, [tonightC, 8, 8])).Advice("frost-protection");

    private static List<WorkWindow> Windows(TreeFacts facts, MadeSeason season, double[] nights) =>
        [.. WindowFinder.Find(Trees.Craft, facts, Trees.Garden(season, nights)).Windows.Where(window => window.Key.Technique == "frost-protection")];
}
