namespace Scheduler.Service.Trees;

/// <summary>What a tree's description needs to know of the species in the catalog.</summary>
public interface ISpeciesNames
{
    bool Exists(string id);

    /// <summary>The valid ids that look most like a mistyped one.</summary>
    IReadOnlyList<string> Nearest(string id);

    /// <summary>Name and coldest hardiness zone (in the ground) of a species; null: there is none of this id.</summary>
    (string Name, string ColdestZone)? Hardiness(string id);

    /// <summary>Codes of the technique groups.</summary>
    IReadOnlyCollection<string> Groups { get; }
}
