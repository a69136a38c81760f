namespace Scheduler.Domain.Phenology.Learning;

/// <summary>A date on which a phase was seen: the phase of a plant kind at a site in a growth year.</summary>
/// <param name="Kind">Botanical name, with the cultivar if it matters ("Prunus avium 'Regina'").</param>
/// <param name="Day">Axis day of the growth year.</param>
public sealed record PhaseDate(string Site, string Kind, string Phase, int Year, double Day)
{
    public SeriesKey Series => new(Site, Kind, Phase);
}

/// <summary>One plant kind, one phase, one place.</summary>
public sealed record SeriesKey(string Site, string Kind, string Phase);

/// <summary>Likely day with its 10th and 90th percentile, on the axis of the growth year.</summary>
public readonly record struct DayForecast(double Early, double Likely, double Late)
{
    public static readonly DayForecast NotExpected = new(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity);

    public bool IsExpected => double.IsFinite(Likely);
}
