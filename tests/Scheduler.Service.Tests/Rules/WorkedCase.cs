using System.Text.Json;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>One worked case of ../shared/domain/cases.json, put into an invented season that satisfies its figures.</summary>
internal sealed class WorkedCase
{
    private static readonly LocalDate FirstFrost = new(2025, 10, 20);
    private const int UsualDaysToFrost = 165;
    private readonly JsonElement _case;
    private readonly JsonElement _given;

    public WorkedCase(JsonElement element)
    {
        _case = element;
        _given = element.GetProperty("given");
    }

    public static string? File { get; } = Find();

    public string Id => _case.GetProperty("id").GetString()!;
    public IEnumerable<JsonElement> Expected => _case.GetProperty("expect").EnumerateArray();
    public IEnumerable<JsonElement> Forbidden =>
        _case.GetProperty("mustNotSay").EnumerateArray().SelectMany(one => one.GetProperty("forbid").EnumerateArray());

    public static IEnumerable<WorkedCase> All()
    {
        var document = JsonDocument.Parse(System.IO.File.ReadAllText(File!));
        return document.RootElement.GetProperty("cases").EnumerateArray().Select(one => new WorkedCase(one));
    }

    public IReadOnlyList<TechniqueAdvice> Advice() => Advisor.Advise(Trees.Craft, Facts(), Garden());

    public WindowSet Windows() => WindowFinder.Find(Trees.Craft, Facts(), Garden());

    private TreeFacts Facts() => Trees.Facts(Tree(), Season.Site(), [.. Work()], [.. Observations()]);

    public JsonElement Given => _given;

    public JsonElement Weather => _given.GetProperty("weather");

    public LocalDate Today => FirstFrost.PlusDays(-(Int(Weather, "daysToFirstFrost") ?? UsualDaysToFrost));

    public MadeSeason Season
    {
        get
        {
            var days = Int(Weather, "daysToFirstFrost") ?? UsualDaysToFrost;
            var season = new MadeSeason { Today = Today, DaysToFrost = days };
            if (Counted is { } heat)
                season = season with { HeatBeforeCd = heat / HeatDays(heat) };
            if (Weather.TryGetProperty("expectedHeatCdPerDay", out var perDay) && Number(perDay, "base5") is { } five)
                season = season with { HeatAfterCd = five };
            if (!Weather.TryGetProperty("remainingHeatCd", out var left))
                return season;
            if (Number(left, "base5") is { } left5)
                return season with { HeatAfterCd = left5 / days };
            var ten = Number(perDay, "base10")!.Value;
            return season with { HeatAfterCd = ten + 5, HeatAfterDays = Number(left, "base10ToFrostMinus14")!.Value / ten };
        }
    }

    // Heat that must have been gathered since an event before today.
    public double? Counted
    {
        get
        {
            foreach (var since in _given.GetProperty("heatSince").EnumerateArray())
                return Number(since, "base5Cd");
            foreach (var work in _given.GetProperty("lastWork").EnumerateArray())
            {
                if (work.TryGetProperty("heatSinceCd", out var heat))
                    return Number(heat, "base5");
            }
            return null;
        }
    }

    public static int HeatDays(double heatCd) => (int)Math.Round(heatCd / 10);

    private Tree Tree()
    {
        var known = _given.GetProperty("lastWork").EnumerateArray().Any(work => Text(work, "technique") == "repotting" && work.TryGetProperty("known", out var told) && told.GetBoolean());
        return new Tree
        {
            Id = new Guid(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11),
            Name = Id,
            SpeciesId = Text(_given, "species")!,
            Group = Text(_given, "group"),
            Stage = Parse<TreeStage>("stage"),
            Goals = [.. _given.GetProperty("goals").EnumerateArray().Select(goal => Ids.TryParse<Goal>(goal.GetString(), out var value) ? value : throw new FormatException(goal.GetString()))],
            Health = Parse<Health>("health"),
            Size = Parse<TreeSize>("size"),
            Placement = Parse<Placement>("placement"),
            RootWorkKnown = known ? true : null,
            Settings = _given.GetProperty("settings").EnumerateObject().ToDictionary(one => one.Name, one => one.Value.ToString().ToLowerInvariant()),
            Branches = _given.GetProperty("branches").Deserialize<Branch[]>(Reading.Options)!,
            Requests = [.. _given.GetProperty("requests").EnumerateArray().Select(one => new TechniqueRequest(Text(one, "technique")!, Text(one, "aim")))]
        };
    }

    private IEnumerable<WorkRecord> Work()
    {
        foreach (var work in _given.GetProperty("lastWork").EnumerateArray())
        {
            if (work.TryGetProperty("known", out _))
                continue;
            var date = Int(work, "daysAgo") is { } days ? Today.PlusDays(-days)
                : Int(work, "seasonsAgo") is { } seasons ? Today.PlusYears(-seasons).PlusDays(-1)
                : work.TryGetProperty("heatSinceCd", out _) ? Today.PlusDays(-HeatDays(Counted!.Value) - 1)
                : Today.PlusDays(-60);
            yield return Trees.Work(Text(work, "technique")!, date) with
            {
                Extent = Ids.TryParse<Extent>(Text(work, "extent"), out var extent) ? extent : null,
                RootPercent = Number(work, "rootPercent"),
                Result = Text(work, "result"),
                Branch = Text(work, "branch")
            };
        }
    }

    private IEnumerable<Observation> Observations()
    {
        foreach (var since in _given.GetProperty("heatSince").EnumerateArray())
            yield return Trees.Seen(Today.PlusDays(-HeatDays(Counted!.Value))) with { Bbch = int.Parse(Text(since, "from")![5..], null) };
        foreach (var seen in _given.GetProperty("observations").EnumerateArray())
        {
            var observation = seen.Deserialize<Observation>(Reading.Options)!;
            yield return observation with { Date = Today.PlusDays(-Int(seen, "daysAgo")!.Value) };
        }
    }

    public GardenFacts Garden() => Trees.Garden(Season, Numbers("forecastBenchMinC"), Numbers("forecastMaxC")) with
    {
        SoilDry = Flag("soilDry"),
        WaterAssured = Flag("waterAssured"),
        FrostFreeShelter = Flag("shelterFrostFree") ?? false,
        RootBallC = Number(Weather, "rootBallC")
    };

    private double[]? Numbers(string name) =>
        Weather.TryGetProperty(name, out var list) ? [.. list.EnumerateArray().Select(one => one.GetDouble())] : null;

    private bool? Flag(string name) => Weather.TryGetProperty(name, out var flag) ? flag.GetBoolean() : null;

    private T Parse<T>(string name) where T : struct, Enum =>
        Ids.TryParse<T>(Text(_given, name), out var value) ? value : throw new FormatException(name);

    private static string? Text(JsonElement element, string name) => element.TryGetProperty(name, out var text) ? text.GetString() : null;

    private static int? Int(JsonElement element, string name) => element.TryGetProperty(name, out var number) ? number.GetInt32() : null;

    private static double? Number(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var number) ? number.GetDouble() : null;

    private static string? Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var path = Path.Combine(folder.FullName, "shared", "domain", "cases.json");
            if (System.IO.File.Exists(path))
                return path;
        }
        return null;
    }
}
