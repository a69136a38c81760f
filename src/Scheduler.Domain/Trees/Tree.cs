using NodaTime;

namespace Scheduler.Domain.Trees;

/// <summary>
/// One tree as its owner describes it. Facts that change by themselves (phase, heat, wounds) are not here:
/// they follow from weather, observations and the work log.
/// </summary>
public sealed record Tree
{
    public required Guid Id { get; init; }
    public required string Name { get; init; }
    /// <summary>Catalog id, such as <c>acer-palmatum</c>.</summary>
    public required string SpeciesId { get; init; }
    public string? Cultivar { get; init; }
    public required TreeStage Stage { get; init; }
    public required IReadOnlyList<Goal> Goals { get; init; }
    public Placement Placement { get; init; } = Placement.Open;
    public required TreeSize Size { get; init; }
    public required Health Health { get; init; }
    /// <summary>Day of the last repotting, if the owner remembers one from before the log.</summary>
    public LocalDate? RepottedOn { get; init; }
    public string? Notes { get; init; }
    /// <summary>Overrides the species' technique group, for a cultivar that answers like another group.</summary>
    public string? Group { get; init; }
    /// <summary>The owner's choice on points where practice disagrees, by number or name ("2", "outline").</summary>
    public IReadOnlyDictionary<string, string> Settings { get; init; } = new Dictionary<string, string>();
    /// <summary>Techniques the owner asks for: such a request makes a neutral technique wanted, never a barred one.</summary>
    public IReadOnlyList<TechniqueRequest> Requests { get; init; } = [];
    /// <summary>False: the owner does not know when the roots were last worked. Null: nothing was said.</summary>
    public bool? RootWorkKnown { get; init; }
    /// <summary>No visible work before this day: a show, a sale, quarantine.</summary>
    public LocalDate? DoNotTouchUntil { get; init; }
    public Origin? Origin { get; init; }
    /// <summary>Branches that differ from the rest of the tree.</summary>
    public IReadOnlyList<Branch> Branches { get; init; } = [];
}

/// <summary>A technique the owner asks for, and why.</summary>
public sealed record TechniqueRequest(string Technique, string? Aim = null);

/// <summary>How and when the tree came, or was badly dried.</summary>
public sealed record Origin(OriginKind Kind, LocalDate Date);
