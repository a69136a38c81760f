namespace Scheduler.Domain.Phenology;

/// <summary>Where a number comes from. It travels with the number to the owner's screen.</summary>
public enum Provenance
{
    /// <summary>Read in the named publication.</summary>
    Published,
    /// <summary>Arithmetic on published figures.</summary>
    Derived,
    /// <summary>Published, quoted from memory and not looked up again.</summary>
    FromMemory,
    /// <summary>What growers do; no source.</summary>
    CommonPractice,
    /// <summary>A starting value chosen for this service, to be corrected by the owner's own log.</summary>
    Estimate
}

/// <summary>One number of the catalog with its provenance and, where it matters, the range it stands for.</summary>
public sealed record Figure(double Value, Provenance Provenance, string? Source = null, double? Low = null, double? High = null);
