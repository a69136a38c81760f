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

/// <summary>
/// One number of the catalog with its provenance and, where it matters, the range it stands for and what it was
/// measured on. Of a range of damage the value is the careful end.
/// </summary>
public sealed record Figure(
    double Value, Provenance Provenance, string? Source = null, double? Low = null, double? High = null, string? Note = null);

/// <summary>A finding told in words, such as a heat sum in the unit it was published in.</summary>
public sealed record Finding(string Text, Provenance Provenance, string? Source = null);
