namespace Scheduler.Domain.Techniques.Care;

/// <summary>What one kind of care says today: on, waiting for a trigger, or out of season.</summary>
internal sealed record CareFinding(Verdict Verdict, IReadOnlyList<Reason> Reasons, Trigger? Opens = null)
{
    public Trigger? Closes { get; init; }
    /// <summary>Null: the amount of the catalog.</summary>
    public IReadOnlyDictionary<string, object>? Amount { get; init; }
    public string? AmountText { get; init; }
    /// <summary>Told before the cautions of the catalog.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];
    /// <summary>False: nothing of what the catalog promises comes of it.</summary>
    public bool HasFollowUps { get; init; } = true;
}
