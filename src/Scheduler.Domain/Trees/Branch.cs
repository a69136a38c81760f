namespace Scheduler.Domain.Trees;

/// <summary>
/// A branch the owner keeps apart from the rest of the tree. What is null is taken from its crown zone and then from
/// the tree.
/// </summary>
public sealed record Branch
{
    /// <summary>The owner's name for it, such as <c>B4</c>; unique within the tree.</summary>
    public required string Id { get; init; }
    public CrownZone? CrownZone { get; init; }
    public TreeStage? Stage { get; init; }
    /// <summary>Null: the goals of the tree.</summary>
    public IReadOnlyList<Goal>? Goals { get; init; }
    /// <summary>0 trunk line visible from outside, 1 partly hidden, 2 hidden, 3 hidden and the inside dying.</summary>
    public int? Density { get; init; }
    public Girth? Girth { get; init; }
    public BranchRole? Role { get; init; }
    public bool? Wired { get; init; }
    /// <summary>Thickness at its base [mm].</summary>
    public double? ThicknessMm { get; init; }
    /// <summary>What is wrong with it, in the owner's words (crossing, bar branch).</summary>
    public string? Fault { get; init; }
}

/// <summary>How far a branch is from the thickness it should have.</summary>
public enum Girth { TooThin, Nearly, Enough }

/// <summary>What a branch is for: the new top, a shoot that competes with it, or a low branch that is kept alive.</summary>
public enum BranchRole { Leader, Rival, LowBranch }
