using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Rules;

/// <summary>What is said once a time is over or not there yet: what comes instead must still be open itself.</summary>
public class TimesOverTests
{
    private static readonly MadeSeason Summer = new() { Today = new LocalDate(2025, 7, 5), DaysToFrost = 105, WarmDays = 90 };
    private static readonly MadeSeason Late = Summer with { Today = new LocalDate(2025, 9, 10), DaysToFrost = 40, WarmDays = 150 };

    [Theory]
    [InlineData("acer-palmatum")]
    [InlineData("malus")]
    [InlineData("fagus-sylvatica")]
    [InlineData("buxus")]
    [InlineData("picea")]
    public void BudThinning_ComesRoundAgainAndIsNeverMissed(string species)
    {
        var tree = Trees.Tree(species, TreeStage.Refinement, Goal.Slender);
        var answer = Advise(tree, Late, Trees.Seen(Late.Today.PlusDays(-60)) with { Bbch = 91, Hardened = true }).Advice("bud-thinning");
        Assert.Equal((Verdict.Wait, "next-season"), (answer.Verdict, answer.Opens!.Fields["season"]));
    }

    [Theory]
    [InlineData(true, null, Verdict.Wait)]
    [InlineData(null, false, Verdict.Wait)]
    [InlineData(null, null, Verdict.Ask)]
    [InlineData(null, true, Verdict.DoNow)]
    public void SoftShoots_WaitForAFirmBase(bool? soft, bool? firm, Verdict verdict)
    {
        var elm = Trees.Tree("ulmus-parvifolia", TreeStage.BranchBuilding, Goal.ThickenBranch);
        var seen = Trees.Seen(Summer.Today) with { Bbch = 16, LeafCount = 6, Soft = soft, BaseFirm = firm, Hardened = false };
        Assert.Equal(verdict, Advise(elm, Summer, seen).Advice("cut-back").Verdict);
    }

    [Fact]
    public void SoftBase_OfAMissedShoot_IsCutBackAtOnce()
    {
        var beech = Trees.Tree("fagus-sylvatica", TreeStage.Refinement, Goal.Slender);
        var seen = Trees.Seen(Summer.Today) with { Bbch = 15, LeafCount = 5, BaseFirm = false, Hardened = false };
        Assert.Equal(Verdict.DoNow, Advise(beech, Summer, seen).Advice("cut-back").Verdict);
    }

    [Theory]
    [InlineData("ulmus-parvifolia", "tip-pinch", "structural-pruning")]
    [InlineData("ulmus-parvifolia", "partial-defoliation", "structural-pruning")]
    [InlineData("euonymus", "early-clip", "structural-pruning")]
    public void LateInTheYear_NoFallbackNamesWorkThatIsOverToo(string species, string missed, string instead)
    {
        var tree = Trees.Tree(species, TreeStage.Ramification, Goal.Slender);
        var seen = Trees.Seen(Late.Today) with { Bbch = 18, LeafCount = 8, BaseFirm = true, Density = 2, LeavesFullSize = true };
        var answer = Advise(tree, Late, seen).Advice(missed);
        Assert.Equal(Verdict.Missed, answer.Verdict);
        Assert.Equal([instead], answer.Fallback!.Techniques);
        Assert.Contains("Too late in the year", answer.Fallback.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryWindowThatCanBeMissed_HasAFallback()
    {
        var without = from technique in ShippedCatalog.Content.Craft.Techniques
                      where technique.Care is null
                      from mode in technique.Modes
                      where mode is { IsStatement: false, AsNeeded: false, RoundAgain: false, Fallbacks.Count: 0 } && mode.Windows.Count > 0
                      select $"{technique.Id}/{mode.Id}";
        Assert.Empty(without);
    }

    [Fact]
    public void CandleJustBegun_AnswersForItsHardening()
    {
        var pine = Trees.Tree("pinus-parviflora", TreeStage.Refinement, Goal.Slender);
        var advice = Advise(pine, Summer with { WarmDays = 40 }, Trees.Seen(Summer.Today) with { Candle = "C1", CandlesPerPoint = 3 });
        Assert.Equal(Verdict.Wait, advice.Advice("needle-plucking").Verdict);
        Assert.Equal(Verdict.Wait, advice.Advice("structural-pruning").Verdict);
    }

    [Fact]
    public void WeakTree_IsNotToldOfABudgetItNeverHad()
    {
        var maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender) with { Health = Health.Weak };
        var answer = Advise(maple, Summer).Advice("outer-leaf-removal");
        Assert.Equal(["weak-or-recovering"], answer.Reasons.Select(reason => reason.Id));
        Assert.Null(answer.BarredUntil);
    }

    private static IReadOnlyList<TechniqueAdvice> Advise(Tree tree, MadeSeason season, params Observation[] seen) =>
        Advisor.Advise(Trees.Craft, Trees.Facts(tree, season.Site(), [], seen), Trees.Garden(season));
}
