using Scheduler.Domain.Techniques.Conditions;

namespace Scheduler.Domain.Techniques;

/// <summary>All conditions by id. The catalog may name no other.</summary>
public static class ConditionSet
{
    private static readonly Dictionary<string, Condition> All = new Condition[]
    {
        new AfterBloom(),
        new AnsweredWellLastYear(),
        new AskedForHard(),
        new AskedForLight(),
        new BareAlongLength(),
        new BeforeTipFlowerBuds(),
        new CaneFromBase(),
        new CaneNotABranch(),
        new EasyYearAfterThree(),
        new EvergreenOakVigorous(),
        new FedThisSpring(),
        new FlowerBudsCertain(),
        new FreeExtensionOnly(),
        new GirthEnough(),
        new GoalBackBud(),
        new HardRootsYoungDeciduous(),
        new KeptTrimmed(),
        new LeavesOvertopFlower(),
        new LiveUnderBark(),
        new LowBranchOrRival(),
        new MissedShootsOnly(),
        new NoFlowerBudOnShoot(),
        new NoGreenWorkThisSeason(),
        new NotBoxOrHolly(),
        new NotCutThisSeason(),
        new NotPinchedCandlesThisYear(),
        new NotStrippedLastYear(),
        new PartDense(),
        new PinchingWanted(),
        new RestedAfterDefoliation(),
        new RootWorkDue(),
        new RootsLeftAloneForStrip(),
        new SeasonOfRootWork(),
        new StripAndRootsApart(),
        new StrongShootsOnly(),
        new StrongTopShades(),
        new TrimBeforeFlowerBuds(),
        new Vigorous(),
        new VigorousAfterHardRootWork(),
        new VigorousAndDense(),
    }.ToDictionary(condition => condition.Id);

    public static IReadOnlyCollection<string> Ids => All.Keys;

    public static Condition Find(string id) => All[id];
}
