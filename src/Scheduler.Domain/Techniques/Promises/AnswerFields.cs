using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>Facts of an observation that can answer a promise to look. A closed set: a name that is not here is a fault.</summary>
public static class AnswerFields
{
    private static readonly Dictionary<string, Func<Observation, bool>> All = new()
    {
        ["bbch"] = seen => seen.Bbch is not null,
        ["candle"] = seen => seen.Candle is not null,
        ["density"] = seen => seen.Density is not null,
        ["firm"] = seen => seen.Firm is not null || seen.BaseFirm is not null,
        ["flowerBuds"] = seen => seen.FlowerBuds is not null || seen.FlowerBudsSeen is not null,
        ["hardened"] = seen => seen.Hardened is not null,
        ["leafCount"] = seen => seen.LeafCount is not null,
        ["pestSigns"] = seen => seen.PestSigns is not null,
        ["shootCm"] = seen => seen.ShootCm is not null,
        ["shootsPerPoint"] = seen => seen.ShootsPerPoint is not null || seen.CandlesPerPoint is not null,
        ["soil"] = seen => seen.Soil is not null,
        ["wire"] = seen => seen.WireTight is not null || seen.WireBiting is not null
    };

    public static IReadOnlyCollection<string> Names => All.Keys;

    /// <summary>True when the observation tells one of these; with none asked, any look will do.</summary>
    public static bool Tells(Observation seen, IReadOnlyList<string> fields)
    {
        ArgumentNullException.ThrowIfNull(fields);
        return fields.Count == 0 || fields.Any(field => All[field](seen));
    }
}
