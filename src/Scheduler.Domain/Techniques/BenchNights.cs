using NodaTime;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Minima of the coming nights at the bench [C]. Night 0 begins this evening. A daily minimum mostly falls at dawn, so
/// the night that begins on a day has the minimum of the day after. Without a measured offset every night is taken as
/// clear and calm, because cloud is not known; that errs towards shelter.
/// </summary>
public sealed class BenchNights
{
    private readonly Dictionary<LocalDate, double> _minC = [];
    private readonly LocalDate _today;

    public BenchNights(GardenFacts garden, Thresholds thresholds)
    {
        ArgumentNullException.ThrowIfNull(garden);
        ArgumentNullException.ThrowIfNull(thresholds);
        _today = garden.Today;
        IsGuessed = garden.BenchOffsetC is null;
        var offset = garden.BenchOffsetC ?? thresholds.ClearCalmNightOffsetC.Value;
        foreach (var day in garden.Days)
            _minC[day.Date.PlusDays(-1)] = day.MinC + offset;
    }

    /// <summary>True when the owner has not measured the bench, so that the offset is that of a clear calm night.</summary>
    public bool IsGuessed { get; }

    /// <summary>Minimum of the night that begins so many days from today; null: beyond the forecast.</summary>
    public double? MinC(int nightsAhead) => MinC(_today.PlusDays(nightsAhead));

    /// <summary>Minimum of the night that begins on the evening of a day.</summary>
    public double? MinC(LocalDate evening) => _minC.TryGetValue(evening, out var min) ? min : null;

    /// <summary>Lowest minimum of some nights from one on; null when none of them is known.</summary>
    public double? LowestC(int fromNight, int nights)
    {
        double? lowest = null;
        for (var night = fromNight; night < fromNight + nights; night++)
        {
            if (MinC(night) is { } min && !(min >= lowest))
                lowest = min;
        }
        return lowest;
    }
}
