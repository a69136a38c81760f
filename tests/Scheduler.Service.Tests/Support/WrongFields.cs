namespace Scheduler.Service.Tests.Support;

/// <summary>A wrong value for one field: the fault must stand under <see cref="Key"/>.</summary>
/// <param name="Json">The wrong value as JSON.</param>
/// <param name="Says">A part of the remedy that the text must hold.</param>
public sealed record WrongField(string Field, string Json, string Key, string Says);

/// <summary>Every field of every body this service reads, each with the ways in which it can be wrong. The first way is used when all are wrong at once.</summary>
public static class WrongFields
{
    private static readonly string TooLong = $"\"{new string('x', 10_001)}\"";
    private const string Flag = "true or false";

    public static readonly IReadOnlyList<WrongField> Account =
    [
        .. Text("name", "200"), .. Required("name"),
        new("invitation", "7", "invitation", "text")
    ];

    public static readonly IReadOnlyList<WrongField> Key = [.. Text("label", "100")];

    public static readonly IReadOnlyList<WrongField> Garden =
    [
        .. Text("name", "200"), .. Required("name"),
        .. Number("latitude", "-90 to 90", "90.01", "-91", "1e400"), .. Required("latitude"),
        .. Number("longitude", "-180 to 180", "180.5", "-181"), .. Required("longitude"),
        .. Number("elevationM", "-450 to 6000", "-451", "9000"),
        new("timeZone", "\"Europe/Warsa\"", "timeZone", "Europe/Warsaw"), new("timeZone", "1", "timeZone", "text"),
        new("hardinessZone", "\"14a\"", "hardinessZone", "1a to 13b"), new("hardinessZone", "7", "hardinessZone", "text"),
        .. Number("temperatureOffsetC", "-15 to 15", "15.1", "-20"),
        new("workDays", "[{\"day\":\"someday\",\"minutes\":120}]", "workDays[0].day", "saturday"),
        new("workDays", "[{\"day\":\"sunday\",\"minutes\":0}]", "workDays[0].minutes", "1 to 1440"),
        new("workDays", "[{\"day\":\"sunday\"}]", "workDays[0].minutes", "missing"),
        new("workDays", "[{\"day\":\"sunday\",\"minutes\":5,\"hours\":1}]", "workDays[0].hours", "day, minutes"),
        new("workDays", "[{\"day\":\"sunday\",\"minutes\":5},{\"day\":\"sunday\",\"minutes\":6}]", "workDays", "once"),
        new("workDays", "[3]", "workDays[0]", "object"), new("workDays", "\"saturday\"", "workDays", "list"),
        new("exceptions", "[{\"from\":\"May\",\"minutes\":0}]", "exceptions[0].from", "yyyy-MM-dd"),
        new("exceptions", "[{\"from\":\"2026-05-02\",\"to\":\"2026-05-01\",\"minutes\":0}]", "exceptions[0].to", "swap"),
        new("exceptions", "[{\"from\":\"2026-05-02\"}]", "exceptions[0].minutes", "missing"),
        new("exceptions", "[{\"from\":\"2026-05-02\",\"minutes\":1441}]", "exceptions[0].minutes", "0 to 1440"),
        new("exceptions", "[{\"minutes\":10}]", "exceptions[0].from", "missing"), new("exceptions", "[{\"from\":\"2026-05-02\",\"minutes\":1,\"why\":1}]", "exceptions[0].why", "from, to, minutes"),
        new("exceptions", "{}", "exceptions", "list"),
        new("firstFrostChoice", "\"bold\"", "firstFrostChoice", "average, cautious"),
        new("waterAssured", "\"yes\"", "waterAssured", Flag), new("frostFreeShelter", "1", "frostFreeShelter", Flag)
    ];

    public static readonly IReadOnlyList<WrongField> Tree =
    [
        .. Text("name", "200"), .. Required("name"),
        new("species", "\"acer-palmatun\"", "species", "acer-palmatum"), .. Required("species"), new("species", "9", "species", "nearest"),
        .. Text("cultivar", "200"),
        new("stage", "\"refined\"", "stage", "refinement"), .. Required("stage"), new("stage", "3", "stage", "refinement"),
        new("goals", "[\"slender\",\"flower\"]", "goals[1]", "flowers"), .. Required("goals"), new("goals", "[\"light\",\"light\"]", "goals", "once"),
        new("placement", "\"balcony\"", "placement", "cold-frame"), .. Required("placement"),
        new("size", "\"xxl\"", "size", "xl"), .. Required("size"),
        new("health", "\"good\"", "health", "sound"), .. Required("health"),
        new("repottedOn", "\"2026-02-30\"", "repottedOn", "yyyy-MM-dd"), new("repottedOn", "\"2026-04-16\"", "repottedOn", "2026-04-15"),
        .. Text("notes", "10000"),
        new("group", "\"XYZ\"", "group", "MPJ"),
        new("settings", "{\"outline\":\"wild\"}", "settings.outline", "free, trimmed"), new("settings", "{\"21\":true}", "settings.21", "no field"),
        new("settings", "{\"3\":[]}", "settings.3", "true"), new("settings", "true", "settings", "object"),
        new("requests", "[{\"technique\":\"tip-pinsh\"}]", "requests[0].technique", "tip-pinch"),
        new("requests", "[{}]", "requests[0].technique", "missing"), new("requests", "[{\"technique\":\"feeding\",\"aim\":2}]", "requests[0].aim", "text"),
        new("rootWorkKnown", "\"no\"", "rootWorkKnown", Flag),
        new("doNotTouchUntil", "\"May\"", "doNotTouchUntil", "yyyy-MM-dd"), new("doNotTouchUntil", "\"2999-01-01\"", "doNotTouchUntil", "2200"),
        new("origin", "{\"kind\":\"bought\",\"date\":\"2020-01-01\"}", "origin.kind", "imported"),
        new("origin", "{\"kind\":\"grafted\",\"date\":\"2027-01-01\"}", "origin.date", "2026-04-15"),
        new("origin", "\"grafted\"", "origin", "object"),
        new("branches", "[{\"id\":\"B4\",\"girth\":\"thin\"}]", "branches[0].girth", "too-thin"),
        new("branches", "[{\"stage\":\"refinement\"}]", "branches[0].id", "missing"), new("branches", "[{\"id\":\"B4\",\"role\":\"king\"}]", "branches[0].role", "low-branch"),
        new("branches", "[{\"id\":\"B4\",\"crownZone\":\"bottom\"}]", "branches[0].crownZone", "inner"),
        new("branches", "[{\"id\":\"B4\",\"stage\":\"refined\"}]", "branches[0].stage", "refinement"),
        new("branches", "[{\"id\":\"B4\",\"goals\":[\"slim\"]}]", "branches[0].goals[0]", "slender"),
        new("branches", "[{\"id\":\"B4\",\"density\":4}]", "branches[0].density", "0 to 3"),
        new("branches", "[{\"id\":\"B4\",\"wired\":\"yes\"}]", "branches[0].wired", Flag),
        new("branches", "[{\"id\":\"B4\",\"thicknessMm\":-1}]", "branches[0].thicknessMm", "0 to 2000"),
        new("branches", "[{\"id\":\"B4\",\"fault\":7}]", "branches[0].fault", "text"),
        new("branches", "[{\"id\":\"B4\",\"thickness\":7}]", "branches[0].thickness", "thicknessMm"),
        new("branches", "[{\"id\":\"B4\"},{\"id\":\"B4\"}]", "branches", "once"), new("branches", "\"B4\"", "branches", "list")
    ];

    public static readonly IReadOnlyList<WrongField> Work =
    [
        new("technique", "\"outline-trin\"", "technique", "outline-trim"), .. Required("technique"),
        .. PastDate(),
        new("extent", "\"huge\"", "extent", "hard"), new("extent", "\"strong\"", "extent", "feeding"),
        new("mode", "\"upside-down\"", "mode", "routine-trim"),
        .. CrownZone(), .. Text("branch", "50"),
        .. Number("minutes", "0 to 10000", "2.5", "-1", "10001"),
        .. Number("rootPercent", "0 to 100", "101", "-0.1"), .. Number("livingTopPercent", "0 to 100", "100.5"),
        new("result", "\"fine\"", "result", "strong, normal, weak"),
        .. Text("notes", "10000")
    ];

    public static readonly IReadOnlyList<WrongField> Bench =
    [
        .. PastDate(),
        new("soilDry", "\"dry\"", "soilDry", Flag), new("woodFrozen", "0", "woodFrozen", Flag),
        .. Number("rootBallC", "-40 to 60", "61"), .. Number("roomMinC", "-40 to 60", "-41"), .. Number("roomMaxC", "-40 to 60", "99"),
        new("roomMinC", "13", "roomMinC", "swap"),
        .. Text("notes", "2000")
    ];

    public static readonly IReadOnlyList<WrongField> Observation =
    [
        .. PastDate(),
        new("phase", "\"bud-brake\"", "phase", "bud-break"), new("bbch", "100", "bbch", "0 to 99"), new("bbch", "60", "bbch", "first-leaf"),
        .. CrownZone(), .. Text("branch", "50"),
        .. Number("flush", "1 to 2", "3", "0"), .. Number("leafCount", "0 to 1000", "-1", "1.5"), .. Number("density", "0 to 3", "4"),
        new("soil", "\"damp\"", "soil", "dry, moist, wet"), new("strength", "\"huge\"", "strength", "strong, medium, weak"),
        .. Text("organ", "50"), new("candle", "\"C5\"", "candle", "C4"),
        .. Number("shootCm", "0 to 1000", "-1"), .. Number("internodeCm", "0 to 100", "101"), .. Number("pastOutlineCm", "0 to 1000", "-0.5"),
        .. Number("shareOfShootsPercent", "0 to 100", "120"), .. Number("someAtBbch", "0 to 99", "100"), .. Text("flowerBuds", "50"),
        .. Number("flowersPastPercent", "0 to 100", "-5"), new("bareAlongLength", "true", "bareAlongLength", "partly"),
        .. Number("candlesPerPoint", "0 to 50", "51"), .. Number("shootsPerPoint", "0 to 50", "0.5"),
        .. new[]
        {
            "hardened", "wireTight", "soft", "baseFirm", "firm", "leavesFullSize", "tipsMoving", "growing", "springGrowthFirm", "flowerBudsSeen",
            "fruitSet", "liveUnderScratch", "capsOff", "deadTwigs", "wireBiting", "pestSigns", "frostedLeaves", "waterStands", "rootsLift"
        }.Select(field => new WrongField(field, "\"true\"", field, Flag)),
        .. Text("notes", "10000")
    ];

    private static IEnumerable<WrongField> Text(string field, string limit) =>
    [
        new(field, "42", field, "text"), new(field, "\"  \"", field, "not blank"), new(field, TooLong, field, limit),
        new(field, "\"a\\u0000b\"", field, "control"), new(field, "[\"a\"]", field, "text")
    ];

    private static IEnumerable<WrongField> Number(string field, string range, params string[] outside) =>
        outside.Append("\"12\"").Append("true").Select(json => new WrongField(field, json, field, range));

    private static IEnumerable<WrongField> Required(string field) => [new(field, "null", field, "value")];

    private static IEnumerable<WrongField> PastDate() =>
    [
        new("date", "\"2026-04-31\"", "date", "yyyy-MM-dd"), new("date", "\"2026-04-16\"", "date", "no later than 2026-04-15"),
        new("date", "\"1700-01-01\"", "date", "no earlier"), new("date", "20260401", "date", "yyyy-MM-dd"), .. Required("date")
    ];

    private static IEnumerable<WrongField> CrownZone() => [new("crownZone", "\"bottom\"", "crownZone", "top, middle, lower, inner")];
}
