using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Trees;
using Scheduler.Service.Gardens;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Whether a tree's species bears the winters of its garden outside.</summary>
/// <param name="Zone">Hardiness zone of the garden; null while neither the owner nor 30 winters tell it.</param>
/// <param name="StaysOutside">False: the winters are too cold for the species even in the ground. Null: not known, or it stands indoors.</param>
/// <param name="Note">The same in words.</param>
public sealed record HardinessAnswer(string? Zone, bool? StaysOutside, string? Note);

/// <summary>Adds to a tree what its species and its garden's zone say together. Zones are of plants in the ground; roots in a pot bear less.</summary>
public sealed class TreeHardiness(ISpeciesNames species, GardenAnswers gardens)
{
    public Task<string?> ZoneAsync(Garden garden, CancellationToken cancel) => gardens.ZoneAsync(garden, cancel);

    public TreeAnswer Show(StoredTree stored, string? zone)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return TreeAnswer.Of(stored) with { Hardiness = Of(stored.Tree, zone) };
    }

    private HardinessAnswer Of(Tree tree, string? zone)
    {
        if (tree.Placement == Placement.Indoors || species.Hardiness(tree.SpeciesId) is not { } known
            || !HardinessZone.TryParse(zone, out var here) || !HardinessZone.TryParse(known.ColdestZone, out var coldest))
        {
            return new HardinessAnswer(zone, null, null);
        }
        return here < coldest
            ? new HardinessAnswer(zone, false, $"{known.Name} cannot stay outside here in winter: it is hardy to zone {coldest}, this place is {here}.")
            : new HardinessAnswer(zone, true, $"{known.Name} is hardy to zone {coldest} in the ground; in a pot its roots bear less, so watch the advice on winter storage.");
    }
}
