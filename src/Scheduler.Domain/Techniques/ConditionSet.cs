using Scheduler.Domain.Techniques.Conditions;

namespace Scheduler.Domain.Techniques;

/// <summary>All conditions by id. The catalog may name no other.</summary>
public static class ConditionSet
{
    private static readonly Dictionary<string, Condition> All = new Condition[]
    {
        new AfterBloom(),
        new AnsweredWellLastYear(),
        new ApexLostOrLiveShootNamed(),
        new AskedForHard(),
        new AskedForHeavyBend(),
        new AskedForLight(),
        new AskedForWire(),
        new BareAlongLength(),
        new BeforeTipFlowerBuds(),
        new BendsAndRootsApart(),
        new BigCutsApart(),
        new CaneFromBase(),
        new CaneNotABranch(),
        new CutsInBloomSeason(),
        new DeadWoodSeen(),
        new EasyYearAfterThree(),
        new EvergreenOakVigorous(),
        new FedThisSpring(),
        new FlowerBudsCertain(),
        new FlowersWorthTaking(),
        new FreeExtensionOnly(),
        new FruitWorthTaking(),
        new GirthEnough(),
        new GoalBackBud(),
        new GreenLeftOnBranch(),
        new HardRootsYoungDeciduous(),
        new KeptTrimmed(),
        new LeavesOvertopFlower(),
        new LiveShootBecomesLeader(),
        new LiveUnderBark(),
        new LowBranchOrRival(),
        new MissedShootsOnly(),
        new NoBendsLately(),
        new NoBigCutsThisSeason(),
        new NoFlowerBudOnShoot(),
        new NoGreenWorkThisSeason(),
        new NotBoxOrHolly(),
        new NotCutThisSeason(),
        new NotPinchedCandlesThisYear(),
        new NotPrunedThisDormancy(),
        new NotStrippedLastYear(),
        new NotTheLeader(),
        new OneLeaderInTwoSeasons(),
        new PartDense(),
        new RestedAfterDefoliation(),
        new RivalsAfterHardening(),
        new RivalsOnly(),
        new RootWorkDue(),
        new RootsLeftAloneForStrip(),
        new RootsNotRotting(),
        new SapSafeSeason(),
        new SeasonOfRootWork(),
        new StripAndRootsApart(),
        new StrongShootsOnly(),
        new StrongTopShades(),
        new TopShareOfARefinedTree(),
        new TrimBeforeFlowerBuds(),
        new Vigorous(),
        new VigorousAfterHardRootWork(),
        new VigorousAndDense(),
        new WireNotBiting(),
        new WireOffDue(),
        new WireOn(),
    }.ToDictionary(condition => condition.Id);

    public static IReadOnlyCollection<string> Ids => All.Keys;

    public static Condition Find(string id) => All[id];
}
