using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Catalog;

/// <summary>A species as the catalog shows it. Form (habit, leaves, flower timing) is handbook botany.</summary>
public sealed record SpeciesResponse
{
    public required string Id { get; init; }
    public required string BotanicalName { get; init; }
    public required string CommonName { get; init; }
    public required string Family { get; init; }
    /// <summary>Code of the technique group.</summary>
    public required string Group { get; init; }
    public required IReadOnlyList<string> Attributes { get; init; }
    public required string Habit { get; init; }
    public required string LeafType { get; init; }
    public string? Leaves { get; init; }
    public string? FlowerBudsOpen { get; init; }
    public Provenance FormProvenance { get; init; } = Provenance.CommonPractice;
    public required IReadOnlyList<PhaseResponse> Phases { get; init; }
    public required ThermalTimes ThermalTimes { get; init; }
    public required Hardiness Hardiness { get; init; }
    public Figure? WaterFactor { get; init; }
    public required IReadOnlyList<Finding> Cautions { get; init; }
    public required IReadOnlyList<TechniqueRemark> Remarks { get; init; }
    public required IReadOnlyList<Finding> Notes { get; init; }

    public static SpeciesResponse Of(Species species)
    {
        ArgumentNullException.ThrowIfNull(species);
        return new SpeciesResponse
        {
            Id = species.Id,
            BotanicalName = species.BotanicalName,
            CommonName = species.CommonName,
            Family = species.Family,
            Group = species.Group,
            Attributes = [.. species.Attributes.Order(StringComparer.Ordinal)],
            Habit = species.Habit,
            LeafType = species.LeafType,
            Leaves = species.Leaves,
            FlowerBudsOpen = species.FlowerBudsOpen,
            Phases = species.GrowsWheneverWarm ? [] : [.. species.Phases.Select(phase => new PhaseResponse(phase.Id, phase.Bbch))],
            ThermalTimes = species.ThermalTimes,
            Hardiness = species.Hardiness,
            WaterFactor = species.WaterFactor,
            Cautions = [.. species.Cautions.Select(text => new Finding(text, species.CautionsProvenance, species.CautionsSource))],
            Remarks = species.Remarks,
            Notes = species.Notes
        };
    }
}

/// <summary>A growth phase and its code on the BBCH scale.</summary>
public sealed record PhaseResponse(string Phase, int Bbch);
