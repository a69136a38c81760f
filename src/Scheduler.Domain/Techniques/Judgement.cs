using NodaTime;

namespace Scheduler.Domain.Techniques;

/// <summary>The verdict on one mode of a technique for one tree in one growth year, with what led to it.</summary>
internal sealed record Judgement
{
    public required Technique Technique { get; init; }
    public required TechniqueMode Mode { get; init; }
    public required TreeYear Year { get; init; }
    public required Verdict Verdict { get; init; }
    /// <summary>The first is the main reason.</summary>
    public required IReadOnlyList<Reason> Reasons { get; init; }
    public Trigger? BarredUntil { get; init; }
    /// <summary>What opens and closes the pass that is next, with every added condition.</summary>
    public Trigger? Opens { get; init; }
    public Trigger? Closes { get; init; }
    public Held? Held { get; init; }
    /// <summary>Days of the visits of this growth year.</summary>
    public IReadOnlyList<LocalDate> Visits { get; init; } = [];
    public int MostPasses { get; init; } = 1;
    /// <summary>Sessions of the next visit are logged already, and some are left.</summary>
    public bool IsBegun { get; init; }
    /// <summary>What it takes out of the tree here, 0-3.</summary>
    public int Load { get; init; }
    /// <summary>Limits that were met on the way, to be told as cautions.</summary>
    public IReadOnlyList<string> Limits { get; init; } = [];
    /// <summary>Room left under the cap on leaf area [%]; null: the cap does not matter.</summary>
    public double? LeafRoomPercent { get; init; }

    /// <summary>Technique, or technique and mode, as the log is asked for it.</summary>
    public string Key => field ??= Mode.Id is null ? Technique.Id : $"{Technique.Id}/{Mode.Id}";

    /// <summary>Its window comes later than today's answer says; null: the answer and the window agree.</summary>
    public Judgement? Later { get; init; }

    /// <summary>The judgement its windows follow.</summary>
    public Judgement Window => Later ?? this;

    public bool IsDone => Visits.Count >= MostPasses;

    public IReadOnlyList<Reason> Because() => Mode.Because.AllFor(Year, cause => Year.Because(cause.Reason));
}
