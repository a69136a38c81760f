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
        new BackBudsCanBeTold(),
        new BareAlongLength(),
        new BeforeTipFlowerBuds(),
        new CandlesInTwoVisits(),
        new CandlesNotCutThisYear(),
        new CaneFromBase(),
        new CaneNotABranch(),
        new DecandlingNotThisYear(),
        new EasyYearAfterThree(),
        new EvergreenOakVigorous(),
        new FedThisSpring(),
        new FlowerBudsCertain(),
        new FreeExtensionOnly(),
        new FullStripBySetting(),
        new GirthEnough(),
        new GoalBackBud(),
        new HalvedBladesOrThird(),
        new HardRootsYoungDeciduous(),
        new HornbeamBySetting(),
        new KeptTrimmed(),
        new LeavesOvertopFlower(),
        new LiveUnderBark(),
        new LowBranchOrRival(),
        new MissedShootsOnly(),
        new MoreThanTwoPerPoint(),
        new NoFlowerBudOnShoot(),
        new NoFullDefoliationThisSeason(),
        new NoGreenWorkThisSeason(),
        new NotBoxOrHolly(),
        new NotCutThisSeason(),
        new NotPinchedCandlesThisYear(),
        new NotStrippedLastYear(),
        new PartDense(),
        new RestedAfterDefoliation(),
        new RootWorkDue(),
        new RootsLeftAloneForStrip(),
        new SeasonOfRootWork(),
        new SparesWantedBloom(),
        new StripAndRootsApart(),
        new StrongShootsOnly(),
        new StrongTopShades(),
        new TrimBeforeFlowerBuds(),
        new TrunkLineOnly(),
        new TwoYearsOffFullDefoliation(),
        new Vigorous(),
        new VigorousAfterHardRootWork(),
        new VigorousAndDense(),
        new YearOffFullDefoliation(),
        new YellowNeedlesOnly(),
    }.ToDictionary(condition => condition.Id);

    public static IReadOnlyCollection<string> Ids => All.Keys;

    public static Condition Find(string id) => All[id];
}
