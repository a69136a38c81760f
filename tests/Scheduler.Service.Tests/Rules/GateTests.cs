using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Gates and holds of the brief, one at a time, on trees for which all else is in favor (common practice, estimates).</summary>
public class GateTests
{
    private static readonly MadeSeason Season = new() { Today = new LocalDate(2025, 5, 3), DaysToFrost = 170, WarmDays = 20 };
    private static readonly Tree Maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);

    [Fact]
    public void NothingInTheWay_IsDoNow() => Assert.Equal(Verdict.DoNow, Pinch(Maple).Verdict);

    [Theory]
    [InlineData(Health.Failing)]
    [InlineData(Health.Weak)]
    public void WeakTree_Rests(Health health) => AssertBarred(Pinch(Maple with { Health = health }), "weak-or-recovering");

    [Theory]
    [InlineData(0, true)]
    [InlineData(1, true)]
    [InlineData(2, false)]
    public void CollectedTree_RestsForTwoSeasons(int yearsAgo, bool rests)
    {
        var answer = Pinch(Maple with { Origin = new Origin(OriginKind.Collected, Season.Today.PlusYears(-yearsAgo).PlusDays(-10)) });
        Assert.Equal(rests ? Verdict.NotAllowed : Verdict.DoNow, answer.Verdict);
    }

    [Fact]
    public void Pests_MakeATreeWeakUntilReportedGone()
    {
        var found = Trees.Seen(Season.Today.PlusDays(-5)) with { PestSigns = true };
        AssertBarred(Pinch(Maple, seen: [found]), "pest-found");
        Assert.Equal(Verdict.DoNow, Pinch(Maple, seen: [found, Trees.Seen(Season.Today) with { PestSigns = false }]).Verdict);
    }

    [Theory]
    [InlineData(Extent.Light, Verdict.DoNow)]
    [InlineData(Extent.Normal, Verdict.NotAllowed)]
    [InlineData(Extent.Hard, Verdict.NotAllowed)]
    public void RootWorkOfTheSeason_BarsBeyondLight(Extent extent, Verdict verdict)
    {
        var answer = Pinch(Maple, [Trees.Work("repotting", Season.Today.PlusDays(-40)) with { Extent = extent }]);
        Assert.Equal(verdict, answer.Verdict);
        if (extent == Extent.Light)
            Assert.Contains(answer.Cautions, text => text.Contains("only strong shoots at the top", StringComparison.Ordinal));
    }

    [Fact]
    public void UnknownRootWork_IsAsked() => Assert.Equal(Verdict.Ask, Pinch(Maple with { RootWorkKnown = null }).Verdict);

    [Fact]
    public void Budget_OfASoundTree_IsOneHeavyJob()
    {
        var heavy = Trees.Work("structural-pruning", Season.Today.PlusDays(-60)) with { LivingTopPercent = 25 };
        AssertBarred(Pinch(Maple with { Health = Health.Sound }, [heavy]), "too-soon-since-heavy-work");
        Assert.Equal(Verdict.DoNow, Pinch(Maple, [heavy]).Verdict);
    }

    [Fact]
    public void FourthSpringInARow_IsTheEasyYear()
    {
        var springs = Enumerable.Range(1, 3).Select(years => Trees.Work("tip-pinch", Season.Today.PlusYears(-years))).ToList();
        AssertBarred(Pinch(Maple, springs), "too-soon-since-heavy-work");
        Assert.Equal(Verdict.DoNow, Pinch(Maple, springs.Take(2).ToList()).Verdict);
    }

    [Theory]
    [InlineData(new double[] { 2, 2, 0, 5 }, 3)]
    [InlineData(new double[] { 0, 5, 5, 5 }, 1)]
    public void FrostWithinThreeNights_Holds(double[] nights, int days)
    {
        var answer = Pinch(Maple, nights: nights);
        Assert.Equal((Verdict.Wait, "frost-soon", Season.Today.PlusDays(days)), (answer.Verdict, answer.Hold, answer.HeldUntil));
        Assert.Equal(WindowState.Held, answer.Window!.State);
    }

    [Fact]
    public void FrostOnTheFourthNight_DoesNotHold() => Assert.Equal(Verdict.DoNow, Pinch(Maple, nights: [2, 2, 2, -1, 5]).Verdict);

    [Fact]
    public void OwnersWord_HoldsUntilItsDay()
    {
        var answer = Pinch(Maple with { DoNotTouchUntil = Season.Today.PlusDays(2) });
        Assert.Equal((Verdict.Wait, "do-not-touch", Season.Today.PlusDays(2)), (answer.Verdict, answer.Hold, answer.HeldUntil));
        // Held past the end of its window, it is missed.
        Assert.Equal(Verdict.Missed, Pinch(Maple with { DoNotTouchUntil = Season.Today.PlusDays(60) }).Verdict);
    }

    [Fact]
    public void DryBall_HoldsForToday()
    {
        var facts = Trees.Facts(Maple, Season.Site(), [], [Leaves]);
        var answer = Advisor.Advise(Trees.Craft, facts, Trees.Garden(Season) with { SoilDry = true }).Advice("tip-pinch");
        Assert.Equal((Verdict.Wait, "dry-root-ball"), (answer.Verdict, answer.Hold));
    }

    [Fact]
    public void LeavesTaken_LeaveLessToTake()
    {
        var season = new MadeSeason { Today = new LocalDate(2025, 7, 10), DaysToFrost = 110, WarmDays = 80 };
        var elm = Trees.Tree("ulmus-parvifolia", TreeStage.Refinement, Goal.Light) with { Health = Health.Sound, Requests = [new TechniqueRequest("leaf-thinning")] };
        IReadOnlyList<Observation> seen = [Trees.Seen(season.Today) with { Hardened = true, Density = 2 }];
        Assert.Equal(Verdict.DoNow, Thin([]).Verdict);
        AssertBarred(Thin([Trees.Work("outer-leaf-removal", season.Today.PlusDays(-25))]), "too-soon-since-heavy-work");
        var cut = Thin([Trees.Work("cut-back", season.Today.PlusDays(-25)) with { LivingTopPercent = 20 }]);
        Assert.Equal(Verdict.DoNow, cut.Verdict);
        Assert.Contains(cut.Amount, entry => entry.TryGetValue("treePercentMax", out var most) && (double)most == 20);

        TechniqueAdvice Thin(IReadOnlyList<WorkRecord> work) =>
            Advisor.Advise(Trees.Craft, Trees.Facts(elm, season.Site(), work, seen), Trees.Garden(season)).Advice("leaf-thinning");
    }

    [Fact]
    public void Fig_IndoorsIsWorkedInLightAndWarmthOnly()
    {
        var fig = Trees.Tree("ficus", TreeStage.Refinement, Goal.Slender) with { Placement = Placement.Indoors };
        var facts = Trees.Facts(fig, Season.Site(), [], [Trees.Seen(Season.Today) with { LeafCount = 3 }]);
        Assert.Equal(Verdict.DoNow, Room(18).Verdict);
        Assert.Equal((Verdict.Wait, "light-or-warmth-short"), (Room(12).Verdict, Room(12).Reasons[0].Id));
        Assert.Equal(Verdict.Ask, Room(null).Verdict);

        TechniqueAdvice Room(double? minC) => Advisor.Advise(Trees.Craft, facts, Trees.Garden(Season) with { RoomMinC = minC }).Advice("tip-pinch");
    }

    private static Observation Leaves => Trees.Seen(Season.Today) with { Bbch = 10 };

    private static TechniqueAdvice Pinch(Tree tree, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null, double[]? nights = null) =>
        Advisor.Advise(Trees.Craft, Trees.Facts(tree, Season.Site(), work, [Leaves, .. seen ?? []]), Trees.Garden(Season, nights)).Advice("tip-pinch");

    private static void AssertBarred(TechniqueAdvice answer, string reason)
    {
        Assert.Equal(Verdict.NotAllowed, answer.Verdict);
        Assert.Contains(answer.Reasons, one => one.Id == reason);
    }
}
