using System.Text.Json;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>How the catalog stands.</summary>
/// <param name="LoadedAt">When the content in use was read.</param>
/// <param name="Files">Files of the owner's folder that are part of it.</param>
/// <param name="Problem">Faults of a later change of that folder, which was not taken; null: nothing is wrong.</param>
/// <param name="Warnings">Rules that can never act.</param>
public sealed record CatalogAnswer(Instant LoadedAt, IReadOnlyList<string> Files, IReadOnlyList<CatalogFault>? Problem, IReadOnlyList<CatalogFault> Warnings)
{
    public static CatalogAnswer Of(CurrentCatalog current)
    {
        ArgumentNullException.ThrowIfNull(current);
        var (content, (loadedAt, problem)) = (current.Content, current.Reading);
        return new CatalogAnswer(loadedAt, [.. content.OwnFiles.Select(OwnFolder.Shown)], problem?.Faults, content.Warnings);
    }
}

/// <summary>A technique group with the species that are of it. What a group does is common practice.</summary>
public sealed record GroupResponse(
    string Code, string Name, string Behavior, bool SeveralFlushes, bool GrowsWheneverWarm, bool Conifer, bool DormancyCut, string? Like,
    Provenance Provenance, IReadOnlyList<string> Species)
{
    internal static GroupResponse Of(TechniqueGroup group, CatalogContent catalog) => new(
        group.Code, group.Name, group.Behavior, group.SeveralFlushes, group.GrowsWheneverWarm, group.Conifer, group.DormancyCut, group.Like,
        Provenance.CommonPractice,
        [.. catalog.Species.Values.Where(species => species.Group == group.Code).Select(species => species.Id).Order(StringComparer.Ordinal)]);
}

/// <summary>A number that several techniques share; the end of its id is its unit.</summary>
public sealed record ThresholdResponse(
    string Id, double Value, Provenance Provenance, string? Source, double? Low, double? High, string? Note)
{
    internal static IEnumerable<ThresholdResponse> All<T>(T numbers) where T : notnull =>
        from property in typeof(T).GetProperties()
        where property.PropertyType == typeof(Figure)
        let figure = (Figure?)property.GetValue(numbers)
        where figure is not null
        select new ThresholdResponse(
            JsonNamingPolicy.CamelCase.ConvertName(property.Name), figure.Value, figure.Provenance, figure.Source, figure.Low, figure.High, figure.Note);
}
