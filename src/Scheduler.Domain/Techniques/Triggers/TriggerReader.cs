using System.Globalization;

namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>
/// Reads a trigger from names and values, the same form that <see cref="Trigger.Fields"/> writes. Values are text,
/// numbers, nested dictionaries or lists, as a YAML or JSON reader gives them.
/// </summary>
public static class TriggerReader
{
    /// <summary>The trigger, or a sentence on what is wrong.</summary>
    public static (Trigger? Trigger, string? Fault) Read(IReadOnlyDictionary<string, object?> fields)
    {
        ArgumentNullException.ThrowIfNull(fields);
        try
        {
            var parts = fields.Where(field => field.Key is not ("flush" or "from" or "firstShoots")).Select(field => Part(field.Key, field.Value, fields)).ToList();
            return parts.Count switch
            {
                0 => (null, "a trigger needs at least one condition"),
                1 => (parts[0], null),
                _ => (new AllTrigger(parts), null)
            };
        }
        catch (FormatException fault)
        {
            return (null, fault.Message);
        }
    }

    private static Trigger Part(string key, object? value, IReadOnlyDictionary<string, object?> fields) => key switch
    {
        "bbch" when fields.TryGetValue("firstShoots", out var first) => first is true or "true"
            ? new FirstShootsTrigger((int)Number(key, value))
            : throw new FormatException("'firstShoots' is true or left out"),
        "bbch" => new PhaseTrigger((int)Number(key, value), Flush(fields)),
        "leafCount" => new LeafCountTrigger((int)Number(key, value)),
        "hardened" => new HardenedTrigger(fields.ContainsKey("bbch") ? null : Flush(fields)),
        "leavesFullSize" => new LeavesFullSizeTrigger(),
        "baseFirm" => new BaseFirmTrigger(),
        "soft" => new SoftTrigger(),
        "density" => new DensityTrigger((int)Number(key, value)),
        "shootCm" => new ShootLengthTrigger(Number(key, value)),
        "internodeCm" => new InternodeTrigger(Number(key, value)),
        "pastOutlineCm" => new PastOutlineTrigger(Number(key, value)),
        "springGrowthFirm" => new SpringGrowthFirmTrigger(),
        "shareLeftPercent" => new ShareLeftTrigger(Number(key, value)),
        "candle" => new CandleTrigger(Text(key, value)),
        "usualDay" => UsualDay(Map(key, value)),
        "heatCd" => Heat(Map(key, value)),
        "days" => Days(value, fields),
        "daysToFrost" => new DaysToFrostTrigger((int)Number(key, value)),
        "remainingHeatCd" => new RemainingHeatTrigger((int)Number("base", Of(Map(key, value), "base")), Number("below", Of(Map(key, value), "below"))),
        "benchMinC" => new BenchMinTrigger(Number(key, value)),
        "benchMinAboveC" => new BenchMinAboveTrigger(Number(key, value)),
        "maxC" => new MaxTrigger(Number(key, value)),
        "nightMinAboveC" => new WarmNightsTrigger(Number(key, value)),
        "nightMinBelowC" => new CoolNightsTrigger(Number(key, value)),
        "rootBallAboveC" => new RootBallTrigger(Number(key, value)),
        "dayLengthRising" => new DayLengthRisingTrigger(),
        "dayLengthBackstop" => new DayLengthBackstopTrigger(),
        "dormant" => new DormantTrigger(),
        "midDormancy" => new MidDormancyTrigger(),
        "fruitSet" => new FruitSetTrigger(),
        "tipsMoving" => value is false or "false" ? new TipsRestTrigger() : new TipsMovingTrigger(),
        "flowersPastPercent" => new FlowersPastTrigger(Number(key, value)),
        "after" => new AfterTrigger(Text(key, value)),
        "season" => new SeasonTrigger(Text(key, value)),
        "text" => new TextTrigger(Text(key, value)),
        "any" => new AnyTrigger(List(key, value).Select(part => Whole(key, part)).ToList()),
        "all" => new AllTrigger(List(key, value).Select(part => Whole(key, part)).ToList()),
        _ => throw new FormatException($"'{key}' is not a kind of trigger")
    };

    private static Trigger Whole(string key, object? part)
    {
        var (trigger, fault) = Read(Map(key, part));
        return trigger ?? throw new FormatException(fault);
    }

    private static HeatTrigger Heat(IReadOnlyDictionary<string, object?> heat) => new(
        (int)Number("base", Of(heat, "base")),
        Number("min", Of(heat, "min")),
        heat.TryGetValue("max", out var max) ? Number("max", max) : null,
        Text("from", Of(heat, "from")));

    private static DaysTrigger Days(object? value, IReadOnlyDictionary<string, object?> fields)
    {
        var span = List("days", value);
        if (span.Count != 2)
            throw new FormatException("'days' needs two numbers, the earliest and the latest");
        return new DaysTrigger((int)Number("days", span[0]), (int)Number("days", span[1]),
            fields.TryGetValue("from", out var from) ? Text("from", from) : null);
    }

    private static UsualDayTrigger UsualDay(IReadOnlyDictionary<string, object?> usual)
    {
        var span = List("days", Of(usual, "days"));
        if (span.Count != 2)
            throw new FormatException("'days' needs two numbers, the earliest and the latest");
        return new UsualDayTrigger(Text("of", Of(usual, "of")), (int)Number("days", span[0]), (int)Number("days", span[1]));
    }

    private static int? Flush(IReadOnlyDictionary<string, object?> fields) =>
        fields.TryGetValue("flush", out var flush) ? (int)Number("flush", flush) : null;

    private static object? Of(IReadOnlyDictionary<string, object?> map, string key) =>
        map.TryGetValue(key, out var value) ? value : throw new FormatException($"'{key}' is missing");

    private static double Number(string key, object? value) =>
        double.TryParse(Convert.ToString(value, CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new FormatException($"'{key}' must be a number, not '{value}'");

    private static string Text(string key, object? value) =>
        Convert.ToString(value, CultureInfo.InvariantCulture) is { Length: > 0 } text ? text : throw new FormatException($"'{key}' must not be empty");

    private static IReadOnlyDictionary<string, object?> Map(string key, object? value) =>
        value as IReadOnlyDictionary<string, object?> ?? throw new FormatException($"'{key}' must hold names and values");

    private static IReadOnlyList<object?> List(string key, object? value) =>
        value as IReadOnlyList<object?> ?? throw new FormatException($"'{key}' must be a list");
}
