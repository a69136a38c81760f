using System.Text.Json.Serialization;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>What may be sent of a tree. On a change, a field left out keeps its value and null clears what is optional.</summary>
/// <param name="Species">Catalog id.</param>
/// <param name="Size">Height above the rim: xs under 15 cm, s to 25, m to 45, l to 75, xl above.</param>
/// <param name="RepottedOn">Last repotting from before the log, no later than today.</param>
/// <param name="Group">Code of another technique group, for a cultivar that answers like one.</param>
/// <param name="Settings">The owner's choice on points where practice disagrees, by number or second name; <c>GET /settings</c> explains them.</param>
/// <param name="RootWorkKnown">False: nobody knows when the roots were last worked.</param>
/// <param name="DoNotTouchUntil">No visible work before this day.</param>
/// <param name="Branches">Branches that differ from the rest; a change sends them all.</param>
public sealed record TreeRequest(
    string Name, string Species, string? Cultivar, TreeStage Stage, IReadOnlyList<Goal> Goals, Placement Placement, TreeSize Size, Health Health,
    LocalDate? RepottedOn, string? Notes, string? Group, IReadOnlyDictionary<string, string>? Settings, IReadOnlyList<TechniqueRequest>? Requests,
    bool? RootWorkKnown, LocalDate? DoNotTouchUntil, Origin? Origin, IReadOnlyList<Branch>? Branches);

/// <summary>A tree as its owner gets to see it.</summary>
public sealed record TreeAnswer(
    Guid Id, Guid GardenId, string Name, string Species, string? Cultivar, TreeStage Stage, IReadOnlyList<Goal> Goals, Placement Placement,
    TreeSize Size, Health Health, LocalDate? RepottedOn, string? Notes, string? Group, IReadOnlyDictionary<string, object> Settings,
    IReadOnlyList<TechniqueRequest> Requests, bool? RootWorkKnown, LocalDate? DoNotTouchUntil, Origin? Origin, IReadOnlyList<Branch> Branches,
    Instant CreatedAt, Instant ChangedAt)
{
    /// <summary>Whether it bears the winters of its garden; not part of an exported document.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public HardinessAnswer? Hardiness { get; init; }

    public static TreeAnswer Of(StoredTree stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        var tree = stored.Tree;
        return new TreeAnswer(
            tree.Id, stored.GardenId, tree.Name, tree.SpeciesId, tree.Cultivar, tree.Stage, tree.Goals, tree.Placement, tree.Size, tree.Health,
            tree.RepottedOn, tree.Notes, tree.Group, SettingFields.Shown(tree.Settings), tree.Requests,
            tree.RootWorkKnown, tree.DoNotTouchUntil, tree.Origin, tree.Branches, stored.CreatedAt, stored.ChangedAt);
    }
}
