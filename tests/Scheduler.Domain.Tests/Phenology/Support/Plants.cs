using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Support;

/// <summary>A few species with the catalog's starting values (all estimates), and rules to go with them.</summary>
internal static class Plants
{
    public static readonly GrowthRules Rules = new()
    {
        SwellBeginsShare = Estimate(0.5),
        LeafTipsShare = Estimate(0.4),
        LeavesSeparateShare = Estimate(0.7),
        HardenedAfterLeavesCd = Estimate(475),
        PreformedLeafCd = Estimate(20),
        FlowerBudsBeforeBloomCd = Estimate(60),
        FullBloomAfterCd = Estimate(40),
        PetalsDownAfterCd = Estimate(120),
        ShortChillPenalty = Estimate(0.9),
        LeastChillShare = Estimate(0.3),
        LeafFallDayLengthHours = Estimate(11.5),
        LeafFallMeanC = Estimate(9),
        EvergreenRestNightC = Estimate(5),
        ShootHalfLengthShare = Estimate(0.58),
        LeafStepSpread = Estimate(0.35),
        LeafCountError = Estimate(0.5),
        RegrowthLeavesCd = Estimate(250),
        LeafColorBeforeHalfDays = Estimate(20),
        LeafFallStepDays = Estimate(10),
        AutumnSpreadDays = Estimate(8),
        AutumnYearSpreadDays = Estimate(6),
        AutumnStepSpreadDays = Estimate(4),
        AutumnDaysPerCoolingC = Estimate(4.8),
        PriorSpread = Estimate(0.3),
        TrackSpread = Estimate(0.2),
        YearSpread = Estimate(0.12),
        LeastHalfWidthDays = Estimate(8),
    };

    /// <summary>The shapes read off the development records, as the shipped catalog has them.</summary>
    public static readonly ClockRules Clock = ClockRules.Developed;

    public static readonly Species Maple = Broadleaf("acer-palmatum", "deciduous", 60, 105, 150, 150, 400, 50, 40) with
    {
        Attributes = new HashSet<string> { "opposite" },
        BotanicalName = "Acer palmatum",
        Family = "Sapindaceae",
    };

    public static readonly Species Cherry = Broadleaf("prunus-cherry", "deciduous", 90, 150, 215, 185, 400, 28, 45) with
    {
        BotanicalName = "Prunus x yedoensis",
        Family = "Rosaceae",
    };

    public static readonly Species Beech = Broadleaf("fagus-sylvatica", "deciduous", 70, 115, 140, 160, 330, null, 95);

    public static readonly Species Olive = Broadleaf("olea-europaea", "evergreen broadleaf", 150, 250, 320, 700, null, 60, 30);

    public static readonly Species Fig = Broadleaf("ficus", "tropical evergreen", null, null, null, null, null, 60, 0);

    public static readonly Species BlackPine = Of("pinus-thunbergii", "conifer", new ThermalTimes
    {
        BaseC = Estimate(5),
        BudSwellCd = Estimate(50),
        BudBreakCd = Estimate(90),
        NeedlesOutCd = Estimate(330),
        FirstBloomCd = Estimate(200),
        ExtensionEndCd = Estimate(650),
        ChillPortions = Estimate(45),
        DayLengthEffect = "weak",
    });

    public static readonly IReadOnlyList<Species> All = [Maple, Cherry, Beech, Olive, Fig, BlackPine];

    public static GrowthScale Scale(Species species) => new(species, Rules);

    /// <summary>With nothing learned from past springs.</summary>
    public static GrowthOutlook Outlook(Species species, SeasonEnsemble season, params SeenPhase[] seen) =>
        new(season, GardenClock.OfCatalog(new SiteSprings(season), Rules, Clock).Of(species), seen);

    /// <summary>With what past springs taught.</summary>
    public static GrowthOutlook Learned(Species species, SeasonEnsemble season, IEnumerable<SeenPhase> springs) =>
        new(season, LearnedClock(season, (species, springs)).Of(species), []);

    public static GardenClock LearnedClock(SeasonEnsemble season, params (Species Species, IEnumerable<SeenPhase> Springs)[] seen) =>
        new(new SiteSprings(season), Rules, Clock,
            new Kinship(All.GroupBy(one => Kinship.Genus(one.BotanicalName)).ToDictionary(genus => genus.Key, genus => genus.First().Family)),
            seen.Select(one => (one.Species, (IReadOnlyList<SeenPhase>)[.. one.Springs])));

    private static Species Broadleaf(
        string id, string leafType, double? swell, double? budBreak, double? firstLeaf, double? bloom, double? end, double? leafStep, double chill) =>
        Of(id, leafType, new ThermalTimes
        {
            BaseC = Estimate(5),
            BudSwellCd = Optional(swell),
            BudBreakCd = Optional(budBreak),
            FirstLeafCd = Optional(firstLeaf),
            FirstBloomCd = Optional(bloom),
            ExtensionEndCd = Optional(end),
            PhyllochronCd = Optional(leafStep),
            ChillPortions = Estimate(chill),
            DayLengthEffect = "weak",
        });

    private static Species Of(string id, string leafType, ThermalTimes times) => new()
    {
        Id = id,
        BotanicalName = id,
        CommonName = id,
        Family = "-",
        Group = "-",
        Attributes = new HashSet<string>(),
        Habit = "-",
        LeafType = leafType,
        ThermalTimes = times,
        Hardiness = new Hardiness
        {
            ColdestZone = "5a",
            WarmestZone = "9b",
            ZonesProvenance = Provenance.Estimate,
            AirLowC = Estimate(-20),
            RootKillC = Estimate(-8),
            NewLeafDamageC = Estimate(-2),
        },
    };

    private static Figure? Optional(double? value) => value is { } known ? Estimate(known) : null;

    private static Figure Estimate(double value) => new(value, Provenance.Estimate);
}
