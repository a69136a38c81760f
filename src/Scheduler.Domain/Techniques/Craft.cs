using Scheduler.Domain.Techniques.Care;

namespace Scheduler.Domain.Techniques;

/// <summary>All the rules: techniques, groups, the sentences of reasons, holds and modes, and the thresholds they share.</summary>
public sealed record Craft
{
    private readonly Dictionary<string, Technique> _byId = [];

    public required IReadOnlyList<Technique> Techniques
    {
        get;
        init
        {
            field = value;
            _byId = value.DistinctBy(technique => technique.Id).ToDictionary(technique => technique.Id);
            Care = [.. value.Where(CareAdvice.IsCare)];
            var handWork = SeasonRun.Ordered(value.Except(Care));
            Settled = [.. handWork.TakeWhile(SeasonRun.IsSettledFirst)];
            Others = [.. handWork.Skip(Settled.Count)];
        }
    }

    /// <summary>Techniques that are on or off by state and weather.</summary>
    internal IReadOnlyList<Technique> Care { get; private init; } = [];
    /// <summary>Hand work in the order in which it is judged: what must be settled first, then all else.</summary>
    internal IReadOnlyList<Technique> Settled { get; private init; } = [];
    internal IReadOnlyList<Technique> Others { get; private init; } = [];
    /// <summary>By group code, such as <c>MPJ</c>.</summary>
    public required IReadOnlyDictionary<string, TechniqueGroup> Groups { get; init; }
    /// <summary>Sentence by reason id.</summary>
    public required IReadOnlyDictionary<string, string> Reasons { get; init; }
    /// <summary>Sentence by id of a weather hold.</summary>
    public required IReadOnlyDictionary<string, string> Holds { get; init; }
    /// <summary>Sentence by mode id.</summary>
    public required IReadOnlyDictionary<string, string> Modes { get; init; }
    public required Thresholds Thresholds { get; init; }
    /// <summary>Points where practice disagrees.</summary>
    public PracticeSettings Settings { get; init; } = PracticeSettings.None;
    /// <summary>How free days are filled.</summary>
    public required PlanningRules Planning { get; init; }

    public Technique? Find(string id) => _byId.GetValueOrDefault(id);

    /// <summary>The reason with its sentence; an id without one is a fault of the catalog and a bug here.</summary>
    public Reason Because(string id, string? text = null) => new(id, text ?? Reasons[id]);
}
