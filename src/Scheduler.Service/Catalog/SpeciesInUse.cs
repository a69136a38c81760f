using Dapper;
using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Catalog;

/// <summary>Trees cannot be planned without their species, so a species may leave the catalog only when no tree is of it.</summary>
internal sealed class SpeciesInUse(Database database)
{
    /// <exception cref="CatalogException">Some tree is of a species, or overridden to a group, that the catalog lacks.</exception>
    public async Task RefuseMissingAsync(CatalogContent content, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var trees = (await connection.QueryAsync<string>("SELECT body FROM trees")).Select(Json.Read<Tree>).ToList();
        var faults = trees.Where(tree => !content.Species.ContainsKey(tree.SpeciesId)).GroupBy(tree => tree.SpeciesId)
            .Select(lost => Fault($"species/{lost.Key}.yaml", "", lost.Count()))
            .Concat(trees.Where(tree => tree.Group is { } group && !content.Craft.Groups.ContainsKey(group)).GroupBy(tree => tree.Group!)
                .Select(lost => Fault("groups.yaml", lost.Key, lost.Count())))
            .ToList();
        if (faults.Count > 0)
            throw new CatalogException(faults);
    }

    private static CatalogFault Fault(string name, string key, int trees) => new(
        OwnFolder.Shown(name), 0, key, null, $"is gone, but {trees} tree{(trees == 1 ? " needs" : "s need")} it", "Put it back, or change those trees first.");
}
