using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules.Care;

/// <summary>Feed on and off. The rows are common practice or estimates; config/techniques/feeding.yaml says which.</summary>
public class FeedingTests
{
    private static readonly MadeSeason Spring = new() { Today = new LocalDate(2025, 5, 1), DaysToFrost = 170, WarmDays = 30 };

    [Theory]
    [InlineData("acer-buergerianum", TreeStage.TrunkBuilding, 7, "strong")]
    [InlineData("acer-buergerianum", TreeStage.BranchBuilding, 3, null)]
    [InlineData("acer-buergerianum", TreeStage.Ramification, 11, null)]
    [InlineData("acer-buergerianum", TreeStage.Ramification, 12, "medium")]
    [InlineData("acer-buergerianum", TreeStage.Refinement, 14, null)]
    [InlineData("acer-buergerianum", TreeStage.Refinement, 91, "light")]
    [InlineData("juniperus-chinensis", TreeStage.Refinement, 7, "light")]
    [InlineData("taxus", TreeStage.Ramification, 10, "medium")]
    [InlineData("pinus-thunbergii", TreeStage.Refinement, 1, "strong")]
    [InlineData("pinus-sylvestris", TreeStage.Refinement, 10, null)]
    [InlineData("pinus-sylvestris", TreeStage.Refinement, 91, "medium")]
    public void Stage_DecidesFromWhichPhase(string species, TreeStage stage, int bbch, string? feed)
    {
        var answer = Answer(Trees.Tree(species, stage, Goal.Slender), bbch);
        Assert.Equal(feed is null ? Verdict.Wait : Verdict.DoNow, answer.Verdict);
        Assert.Equal(feed is null ? "feeding-rests" : "fed-by-stage", answer.Reasons[0].Id);
        if (feed is not null)
            Assert.Equal(feed, answer.Amount[0]["feed"]);
    }

    [Theory]
    [InlineData(Extent.Normal, 27, Verdict.Wait)]
    [InlineData(Extent.Normal, 28, Verdict.DoNow)]
    [InlineData(Extent.Hard, 28, Verdict.Wait)]
    [InlineData(Extent.Hard, 41, Verdict.Wait)]
    [InlineData(Extent.Hard, 42, Verdict.DoNow)]
    public void AfterRootWork_FourOrSixWeeksOff_ThenLightEvenBeforeHardening(Extent extent, int daysAgo, Verdict verdict)
    {
        var answer = Answer(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), 12,
            Trees.Work("repotting", Spring.Today.PlusDays(-daysAgo)) with { Extent = extent });
        Assert.Equal(verdict, answer.Verdict);
        Assert.Equal("light", answer.Amount[0]["feed"]);
    }

    [Theory]
    [InlineData(54, Verdict.DoNow)]
    [InlineData(55, Verdict.Wait)]
    [InlineData(65, Verdict.Wait)]
    [InlineData(69, Verdict.DoNow)]
    public void FlowersWanted_RestsFromBudsToPetalFall(int flower, Verdict verdict)
    {
        var season = Spring;
        var facts = Trees.Facts(Trees.Tree("syringa-vulgaris", TreeStage.Ramification, Goal.Flowers), season.Site(), [],
            [Trees.Seen(season.Today) with { Bbch = flower }, Trees.Seen(season.Today) with { Bbch = 12, Organ = "leaf-buds" }]);
        Assert.Equal(verdict, Advisor.Advise(Trees.Craft, facts, Trees.Garden(season)).Advice("feeding").Verdict);
    }

    [Theory]
    [InlineData(null, Verdict.Wait)]
    [InlineData("never-stop", Verdict.DoNow)]
    public void LeavesTaken_RestsUnlessTheOwnerNeverStops(string? choice, Verdict verdict)
    {
        var tree = Trees.Tree("ulmus-parvifolia", TreeStage.Ramification, Goal.Slender);
        tree = choice is null ? tree : tree with { Settings = new Dictionary<string, string> { ["6"] = choice } };
        Assert.Equal(verdict, Answer(tree, 14, Trees.Work("full-defoliation", Spring.Today.PlusDays(-5))).Verdict);
    }

    [Fact]
    public void RefinedTree_FedFromBudBreakWhenTheOwnerSaysSo()
    {
        var tree = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender) with { Settings = new Dictionary<string, string> { ["5"] = "from-bud-break" } };
        Assert.Equal(Verdict.DoNow, Answer(tree, 9).Verdict);
    }

    [Theory]
    [InlineData(Health.Weak, 12, Verdict.DoNow)]
    [InlineData(Health.Weak, 8, Verdict.Wait)]
    [InlineData(Health.Failing, 12, Verdict.Leave)]
    public void WeakTree_GetsHalfWhileItGrows_FailingNothing(Health health, int bbch, Verdict verdict)
    {
        var answer = Answer(Trees.Tree("acer-buergerianum", TreeStage.BranchBuilding, Goal.ThickenTrunk) with { Health = health }, bbch);
        Assert.Equal(verdict, answer.Verdict);
        if (verdict != Verdict.Leave)
            Assert.Equal("half", answer.Amount[0]["feed"]);
    }

    [Theory]
    [InlineData(46, "acer-buergerianum", Verdict.DoNow)]
    [InlineData(44, "acer-buergerianum", Verdict.Leave)]
    [InlineData(31, "pinus-sylvestris", Verdict.DoNow)]
    [InlineData(29, "pinus-sylvestris", Verdict.Leave)]
    public void SeasonEnds_CountedBackFromFrost(int daysToFrost, string species, Verdict verdict)
    {
        var late = Spring with { Today = new LocalDate(2025, 9, 1), DaysToFrost = daysToFrost, WarmDays = 150 };
        var facts = Trees.Facts(Trees.Tree(species, TreeStage.TrunkBuilding, Goal.ThickenTrunk), late.Site(), [], [Trees.Seen(late.Today) with { Bbch = 91 }]);
        Assert.Equal(verdict, Advisor.Advise(Trees.Craft, facts, Trees.Garden(late)).Advice("feeding").Verdict);
    }

    [Fact]
    public void Weather_StopsFeed()
    {
        var tree = Trees.Tree("acer-buergerianum", TreeStage.TrunkBuilding, Goal.ThickenTrunk);
        Assert.Equal(Verdict.Wait, Answer(tree, 14, garden => garden with { RootBallC = 7 }).Verdict);
        Assert.Equal(Verdict.Wait, Answer(tree, 14, garden => garden with { SoilDry = true }).Verdict);
        var hot = Advisor.Advise(Trees.Craft, Facts(tree, 14), Trees.Garden(Spring, maxC: [35, 36, 30])).Advice("feeding");
        Assert.Equal((Verdict.Wait, "{days:[2,2]}"), (hot.Verdict, Reading.Canonical(hot.Opens!.Fields)));
    }

    [Fact]
    public void JustFed_WaitsForTheRhythmOfTheLabel()
    {
        var answer = Answer(Trees.Tree("acer-buergerianum", TreeStage.TrunkBuilding, Goal.ThickenTrunk), 14, Trees.Work("feeding", Spring.Today.PlusDays(-4)));
        Assert.Equal((Verdict.Wait, "{days:[10,38]}"), (answer.Verdict, Reading.Canonical(answer.Opens!.Fields)));
    }

    [Fact]
    public void TurningPoints_AreWindows_NeverMissed()
    {
        var facts = Trees.Facts(Trees.Tree("syringa-vulgaris", TreeStage.BranchBuilding, Goal.Flowers), Spring.Site());
        var windows = WindowFinder.Find(Trees.Craft, facts, Trees.Garden(Spring)).Windows.Where(window => window.Key.Technique == "feeding").ToList();
        Assert.NotEmpty(windows);
        Assert.All(windows, window => Assert.NotEqual(WindowState.Missed, window.State));
        Assert.Equal(windows.Select(window => window.Key).Distinct().Count(), windows.Count);
        var next = windows.Where(window => window.Key.Year == Spring.Year.Year + 1).ToList();
        Assert.True(next.Zip(next.Skip(1), (one, then) => one.Closes.Likely <= then.Opens.Likely).All(inOrder => inOrder));
        // Forty-five days before the frost, which comes 170 days from today.
        Assert.InRange(Period.DaysBetween(Spring.Today.PlusYears(1), next[^1].Closes.Likely!.Value), 123, 127);
    }

    private static TreeFacts Facts(Tree tree, int bbch, params WorkRecord[] work) =>
        Trees.Facts(tree, Spring.Site(), work, [Trees.Seen(Spring.Today) with { Bbch = bbch }, Trees.Seen(Spring.Today) with { Bbch = 51, Organ = "flower-buds" }]);

    private static TechniqueAdvice Answer(Tree tree, int bbch, params WorkRecord[] work) =>
        Advisor.Advise(Trees.Craft, Facts(tree, bbch, work), Trees.Garden(Spring)).Advice("feeding");

    private static TechniqueAdvice Answer(Tree tree, int bbch, Func<GardenFacts, GardenFacts> change) =>
        Advisor.Advise(Trees.Craft, Facts(tree, bbch), change(Trees.Garden(Spring))).Advice("feeding");
}
