namespace Scheduler.Service.Trees;

/// <summary>What requests and the work log need to know of the techniques in the catalog.</summary>
public interface ITechniqueNames
{
    bool Exists(string id);

    /// <summary>The valid ids that look most like a mistyped one.</summary>
    IReadOnlyList<string> Nearest(string id);

    /// <summary>Ids of the technique's modes, empty when it has only one; for null the modes of all techniques.</summary>
    IReadOnlyCollection<string> Modes(string? techniqueId);
}
