using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Which parts a tree has, what each takes from the tree, and how the answers come together.</summary>
public class TreePartTests
{
    private static readonly LocalDate Today = new(2025, 4, 25);
    private static readonly MadeSeason Season = new() { Today = Today, DaysToFrost = 165 };
    private static readonly Tree Maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);

    [Fact]
    public void Tree_WithoutZonesOrBranches_IsOnePart() => Assert.Equal([TreePart.Whole], TreePart.Of(Year(Maple)));

    [Fact]
    public void Zones_CountOnceAnObservationOrWorkOrBranchNamesOne()
    {
        CrownZone?[] zones = [CrownZone.Top, CrownZone.Middle, CrownZone.Lower, CrownZone.Inner];
        Assert.Equal(zones, TreePart.Of(Year(Maple, seen: [Seen(CrownZone.Lower, 7)])).Select(part => part.CrownZone));
        Assert.Equal(zones, TreePart.Of(Year(Maple, [Trees.Work("tip-pinch", Today) with { CrownZone = CrownZone.Top }])).Select(part => part.CrownZone));
        var branched = Maple with { Branches = [new Branch { Id = "apex", CrownZone = CrownZone.Top }] };
        Assert.Equal([.. zones, CrownZone.Top], TreePart.Of(Year(branched)).Select(part => part.CrownZone));
        Assert.Equal("apex", TreePart.Of(Year(branched))[^1].Branch!.Id);
    }

    [Fact]
    public void Zones_OfATreeThatIsStrongerBelow_StartBelow()
    {
        var azalea = Trees.Tree("rhododendron-indicum", TreeStage.Refinement, Goal.Flowers);
        Assert.Equal(CrownZone.Lower, TreePart.Of(Year(azalea, seen: [Seen(CrownZone.Top, 7)]))[0].CrownZone);
    }

    [Fact]
    public void Branch_WithoutValuesOfItsOwn_TakesThoseOfItsZoneThenOfTheTree()
    {
        var branch = new Branch { Id = "B1", CrownZone = CrownZone.Lower };
        var tree = Maple with { Branches = [branch] };
        Observation[] seen =
        [
            Trees.Seen(Today) with { Density = 1, Soft = true }, Seen(CrownZone.Lower, 7) with { Density = 2 }, Seen(CrownZone.Top, 10) with { Density = 3 }
        ];
        var part = Year(tree, seen: seen).For(new TreePart(CrownZone.Lower, branch));
        Assert.Equal((TreeStage.Refinement, 2, true), (part.Tree.Stage, part.Seen.Density, part.Seen.Soft));
        Assert.Equal((Truth.No, Truth.Yes), (part.Reached(10), part.Reached(7)));
        Assert.Equal([Goal.Slender], part.Goals);
    }

    [Fact]
    public void Branch_WithValuesOfItsOwn_KeepsThem()
    {
        var branch = new Branch { Id = "B1", Stage = TreeStage.BranchBuilding, Goals = [Goal.ThickenBranch], Density = 0 };
        var year = Year(Maple with { Branches = [branch] }, seen: [Trees.Seen(Today) with { Density = 3 }, Trees.Seen(Today) with { Branch = "B1", LeafCount = 6 }]);
        var part = year.For(new TreePart(null, branch));
        Assert.Equal(TreeStage.BranchBuilding, part.Tree.Stage);
        Assert.Equal([Goal.ThickenBranch], part.Goals);
        Assert.Equal((Truth.Yes, Truth.No), (part.Leaves(6), part.Leaves(8)));
        Assert.Equal([Goal.Slender], year.Goals);
        Assert.Same(part, year.For(new TreePart(null, branch)));
        Assert.Same(year, part.Whole);
    }

    [Fact]
    public void Zone_NobodyLookedAt_HasThePhaseOfTheTree()
    {
        var year = Year(Maple, seen: [Seen(CrownZone.Top, 10)]);
        Assert.Equal(Truth.Yes, year.For(new TreePart(CrownZone.Middle, null)).Reached(10));
    }

    [Fact]
    public void Phase_OfFewerThanHalfTheShoots_IsNotYetReached()
    {
        Assert.Equal(Truth.Yes, Year(Maple, seen: [Seen(CrownZone.Top, 10) with { ShareOfShootsPercent = 60 }]).Reached(10));
        Assert.Equal(Truth.No, Year(Maple, seen: [Seen(CrownZone.Top, 10) with { ShareOfShootsPercent = 40 }]).Reached(10));
    }

    [Fact]
    public void Zone_ThatIsAhead_OpensTheTreeAndTheLastOneClosesIt()
    {
        var year = Year(Maple, seen: [Seen(CrownZone.Top, 12), Seen(CrownZone.Lower, 10)]);
        Assert.Equal(Truth.Yes, year.Reached(12));
        Assert.Equal(Truth.No, year.Reached(12, everywhere: true));
    }

    [Fact]
    public void Work_OnOnePart_IsThatPartsAlone()
    {
        var year = Year(Maple, [Trees.Work("tip-pinch", Today) with { CrownZone = CrownZone.Top }]);
        Assert.NotNull(year.For(new TreePart(CrownZone.Top, null)).Log.Last("tip-pinch"));
        Assert.Null(year.For(new TreePart(CrownZone.Lower, null)).Log.Last("tip-pinch"));
        Assert.Empty(year.Log.Visits("tip-pinch", 14));
    }

    [Fact]
    public void Pinch_WithTheTopAwakeFirst_IsForTheTopNowAndOneWindow()
    {
        Observation[] seen = [Seen(CrownZone.Top, 10), Seen(CrownZone.Middle, 9), Seen(CrownZone.Lower, 7), Seen(CrownZone.Inner, 7)];
        var facts = Facts(Maple, seen: seen);
        var advice = Advisor.Advise(Trees.Craft, facts, Trees.Garden(Season)).Advice("tip-pinch");
        Assert.Equal(Verdict.DoNow, advice.Verdict);
        Assert.Equal([Verdict.DoNow, Verdict.Wait, Verdict.Wait, Verdict.Leave], advice.Parts.Select(part => part.Verdict));
        Assert.Equal("weak-and-inner-stay", advice.Parts[3].Reasons[0].Id);
        var window = Assert.Single(WindowFinder.Find(Trees.Craft, facts, Trees.Garden(Season)).Windows, window =>
            window.Key.Technique == "tip-pinch" && window.Key.Year == Season.Year.Year);
        Assert.Equal(WindowState.Open, window.State);
        Assert.Contains("Now: top. Later: middle, lower. Leave: inner.", window.Amount, StringComparison.Ordinal);
        Assert.Equal(window.Amount, advice.Window!.Amount);
    }

    [Fact]
    public void Pinch_WithTheTopDone_IsDoneOnceEveryWantedZoneIs()
    {
        Observation[] seen = [Seen(CrownZone.Top, 10), Seen(CrownZone.Middle, 10), Seen(CrownZone.Lower, 10)];
        var top = Trees.Work("tip-pinch", Today) with { CrownZone = CrownZone.Top };
        Assert.Equal(WindowState.Open, State([top]));
        Assert.Equal(WindowState.Done, State([top, top with { CrownZone = CrownZone.Middle }, top with { CrownZone = CrownZone.Lower }]));

        WindowState State(IReadOnlyList<WorkRecord> work) => WindowFinder.Find(Trees.Craft, Facts(Maple, work, seen), Trees.Garden(Season)).Windows
            .First(window => window.Key.Technique == "tip-pinch" && window.Key.Year == Season.Year.Year).State;
    }

    [Fact]
    public void Branch_TooThin_RunsOnOnceItsLeavesAreThere()
    {
        var thin = new Branch { Id = "thin", Girth = Girth.TooThin };
        var tree = Trees.Tree("acer-buergerianum", TreeStage.BranchBuilding, Goal.ThickenBranch) with { Branches = [thin, new Branch { Id = "thick", Girth = Girth.Enough }] };
        Observation[] seen = [Ready("thin"), Ready("thick")];
        var parts = Advisor.Advise(Trees.Craft, Facts(tree, seen: seen), Trees.Garden(Season)).Advice("cut-back").Parts;
        Assert.Equal((Verdict.Leave, "leaves-are-fuel"), Answer("thin"));
        Assert.Equal((Verdict.DoNow, "leaves-are-fuel"), Answer("thick"));

        Observation Ready(string branch) => Trees.Seen(Today) with { Branch = branch, LeafCount = 8, BaseFirm = true };
        (Verdict, string) Answer(string branch) => parts.Where(part => part.Branch == branch).Select(part => (part.Verdict, part.Reasons[0].Id)).Single();
    }

    [Fact]
    public void WeakShoots_AreAllThatWasSeenInAZone_TheZoneIsLeft()
    {
        Observation[] seen = [Seen(CrownZone.Top, 10), Seen(CrownZone.Lower, 10) with { Strength = "weak" }];
        var parts = Advisor.Advise(Trees.Craft, Facts(Maple, seen: seen), Trees.Garden(Season)).Advice("tip-pinch").Parts;
        Assert.Equal(Verdict.Leave, parts.Single(part => part.CrownZone == CrownZone.Lower).Verdict);
    }

    [Fact]
    public void FrostedLeaves_BarMediumAndHeavyWorkUntilNextSeason()
    {
        var advice = Advisor.Advise(Trees.Craft, Facts(Maple, seen: [Trees.Seen(Today) with { Bbch = 10, FrostedLeaves = true }]), Trees.Garden(Season));
        var pinch = advice.Advice("tip-pinch");
        Assert.Equal((Verdict.NotAllowed, "weak-or-recovering"), (pinch.Verdict, pinch.Reasons[0].Id));
        Assert.Equal("next season", pinch.BarredUntil!.Words);
    }

    [Fact]
    public void OneZone_IsLightWork_TheWholeTreeIsNot()
    {
        // A sound tree that had its heavy job bears light work only.
        var sound = Maple with { Health = Health.Sound };
        var heavy = Trees.Work("structural-pruning", Season.Year.Turn.PlusDays(20)) with { Mode = "live-wood", LivingTopPercent = 25 };
        var zone = Pinch([heavy], [Seen(CrownZone.Top, 10), Seen(CrownZone.Middle, 3), Seen(CrownZone.Lower, 3)]);
        Assert.Equal(Verdict.DoNow, zone.Parts.Single(part => part.CrownZone == CrownZone.Top).Verdict);
        Assert.Equal("too-soon-since-heavy-work", zone.Parts.Single(part => part.CrownZone == CrownZone.Middle).Reasons[0].Id);
        var done = Pinch([heavy, Trees.Work("tip-pinch", Today) with { CrownZone = CrownZone.Lower }], [Seen(CrownZone.Top, 10)]);
        Assert.Equal(Verdict.NotAllowed, done.Parts.Single(part => part.CrownZone == CrownZone.Top).Verdict);
        Assert.Equal(Verdict.NotAllowed, Pinch([heavy], [Trees.Seen(Today) with { Bbch = 10 }]).Verdict);

        TechniqueAdvice Pinch(IReadOnlyList<WorkRecord> work, IReadOnlyList<Observation> seen) =>
            Advisor.Advise(Trees.Craft, Facts(sound, work, seen), Trees.Garden(Season)).Advice("tip-pinch");
    }

    [Fact]
    public void Root_Work_HasNoParts()
    {
        var advice = Advisor.Advise(Trees.Craft, Facts(Maple, seen: [Seen(CrownZone.Top, 3)]), Trees.Garden(Season)).Advice("repotting");
        Assert.All(advice.Parts, part => Assert.Null(part.CrownZone));
    }

    private static Observation Seen(CrownZone zone, int bbch) => Trees.Seen(Today) with { CrownZone = zone, Bbch = bbch };

    private static TreeFacts Facts(Tree tree, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null) =>
        Trees.Facts(tree, Season.Site(), work, seen);

    private static TreeYear Year(Tree tree, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null)
    {
        var (facts, garden) = (Facts(tree, work, seen), Trees.Garden(Season));
        return new TreeYear(Trees.Craft, facts, garden, new BenchNights(garden, Trees.Craft.Thresholds), facts.Current);
    }
}
