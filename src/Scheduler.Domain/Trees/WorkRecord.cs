using NodaTime;

namespace Scheduler.Domain.Trees;

/// <summary>Work that was done on a tree. The log is the memory that rest periods, budgets and follow-ups rely on.</summary>
public record WorkRecord
{
    public required Guid Id { get; init; }
    public required string Technique { get; init; }
    public required LocalDate Date { get; init; }
    public string? Mode { get; init; }
    public Extent? Extent { get; init; }
    public CrownZone? CrownZone { get; init; }
    public string? Branch { get; init; }
    /// <summary>Time it took [min].</summary>
    public int? Minutes { get; init; }
    /// <summary>Share of the roots removed [%], 0-100.</summary>
    public double? RootPercent { get; init; }
    /// <summary>Share of the living top removed [%], 0-100.</summary>
    public double? LivingTopPercent { get; init; }
    /// <summary>How the tree answered: <c>strong</c>, <c>normal</c>, <c>weak</c>.</summary>
    public string? Result { get; init; }
    /// <summary>The owner's word on work that takes several sessions: true, nothing is left to do; false, there is more; null, the technique's rule.</summary>
    public bool? Finished { get; init; }
    public string? Notes { get; init; }
}
