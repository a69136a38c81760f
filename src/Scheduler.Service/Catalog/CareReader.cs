using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Care;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog;

/// <summary>Reads the key <c>care</c> of a technique; its form follows from the technique's id.</summary>
internal sealed class CareReader(CraftTerms terms)
{
    private static readonly string[] Feeds = ["strong", "medium", "light", "low-nitrogen", "rest"];
    private static readonly string[] Kinds = ["feeding", "heat-shade", "watering", "winter-storage", "scouting"];

    private readonly RuleReading _rules = new(terms);

    public CareRules? Read(YamlMap technique)
    {
        var id = technique.OptionalText("id") ?? "";
        if (technique.OptionalMap("care") is not { } care)
        {
            if (Kinds.Contains(id))
                technique.Fault("care", null, "is missing", "This technique goes by state and weather; add its 'care' as in the shipped file.");
            return null;
        }
        CareRules? rules = id switch
        {
            "feeding" => Feeding(care),
            "heat-shade" => HeatShade(care),
            "watering" => Watering(care),
            "winter-storage" => Storage(care),
            "scouting" => new ScoutingRules { GrowthDays = Days(care, "growthDays"), RestDays = Days(care, "restDays") },
            _ => null
        };
        if (rules is null)
            technique.Fault("care", null, "does not belong here", $"Only {string.Join(", ", Kinds)} have it; remove it.");
        return rules;
    }

    private FeedingRules Feeding(YamlMap care) => new()
    {
        CycleLowDays = Days(care, "cycleLowDays"),
        CycleHighDays = Days(care, "cycleHighDays"),
        HeatC = Celsius(care, "heatC"),
        ColdBallC = Celsius(care, "coldBallC"),
        Rows = [.. care.Maps("rows").Select(FeedRow)]
    };

    private FeedRow FeedRow(YamlMap row)
    {
        var feed = row.Choice("feed", Feeds);
        var until = _rules.OptionalTrigger(row, "until");
        if (feed == "rest" && until is null)
            row.Fault("until", null, "is missing", "A rest must say when it ends.");
        return new FeedRow(_rules.For(row), _rules.Trigger(row, "from"), until, feed == "rest" ? null : feed, row.Text("text"), row.Origin().Provenance);
    }

    private HeatShadeRules HeatShade(YamlMap care) => new()
    {
        EveryTreeC = Celsius(care, "everyTreeC"),
        HeatBearing = [.. care.Maps("heatBearing").Select(_rules.For)],
        Lower = [.. care.Maps("lower").Select(row => new LimitRow(_rules.For(row), Celsius(row, "limitC")))],
        BallCautionC = Celsius(care, "ballCautionC"),
        BallActC = Celsius(care, "ballActC"),
        DaysUnder = Days(care, "daysUnder"),
        LookDays = Days(care, "lookDays")
    };

    private WateringRules Watering(YamlMap care) => new()
    {
        Phases = [.. care.Maps("phases").Select(row => new PhaseFactor(_rules.For(row), _rules.Trigger(row, "from"), Factor(row, "factor")))],
        Work = [.. care.Maps("work").Select(row => new WorkFactor(row.Choice("work", terms.Techniques), _rules.OptionalTrigger(row, "until"), Factor(row, "factor")))],
        Pots = Of<TreeSize>(care, "pots", 0, 5),
        Places = Of<Placement>(care, "places", 0, 5),
        WindFactor = Factor(care, "windFactor"),
        WindKmh = care.Figure("windKmh", 0, 300),
        RoomMm = care.Figure("roomMm", 0, 20),
        DailyAbove = Factor(care, "dailyAbove"),
        SeveralFromC = Celsius(care, "severalFromC"),
        MostDays = Days(care, "mostDays")
    };

    private static StorageRules Storage(YamlMap care) => new()
    {
        InMarginC = Celsius(care, "inMarginC"),
        LastCallMarginC = Celsius(care, "lastCallMarginC"),
        BallWarmerC = Of<TreeSize>(care, "ballWarmerC", 0, 20),
        YoungRootsC = Celsius(care, "youngRootsC"),
        LightFrosts = care.Figure("lightFrosts", 0, 30),
        LightFrostC = Celsius(care, "lightFrostC"),
        WarmClimateC = Celsius(care, "warmClimateC"),
        OutBallC = Celsius(care, "outBallC"),
        OutDays = Days(care, "outDays"),
        OutMarginC = Celsius(care, "outMarginC"),
        LeastShare = care.Figure("leastShare", 0, 1),
        LookNights = Days(care, "lookNights")
    };

    // One figure for each word of a set.
    private static Dictionary<T, Figure> Of<T>(YamlMap care, string key, double low, double high) where T : struct, Enum
    {
        var map = care.Map(key);
        return EnumWords<T>.ByWord.ToDictionary(word => word.Value, word => map.Figure(word.Key, low, high));
    }

    private static Figure Days(YamlMap map, string key) => map.Figure(key, 1, 366);

    private static Figure Celsius(YamlMap map, string key) => map.Figure(key, -60, 60);

    private static Figure Factor(YamlMap map, string key) => map.Figure(key, 0, 10);
}
