using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Accumulation;

public enum FrostKind
{
    LastOfSpring,
    FirstOfAutumn,
}

/// <summary>The frost of one calendar year, or null when that half of the year had none.</summary>
public readonly record struct FrostYear(int Year, LocalDate? Date);

/// <summary>
/// The frosts of several years and what can be expected of another. Days are counted from the season's start, 1 January in the
/// north and 1 July in the south, as whole days from 0, so that leap years line up.
/// </summary>
public sealed class FrostRecord
{
    private readonly Hemisphere _hemisphere;
    private readonly FrostKind _kind;
    private readonly double[] _offsets;

    internal FrostRecord(Hemisphere hemisphere, FrostKind kind, IReadOnlyList<FrostYear> years)
    {
        (_hemisphere, _kind, Years) = (hemisphere, kind, years);

        // A year without frost is as good as an autumn frost after the end, or a spring frost before the start.
        var never = kind is FrostKind.FirstOfAutumn ? double.PositiveInfinity : double.NegativeInfinity;
        _offsets = [.. years.Select(year => year.Date is { } date ? Period.DaysBetween(SeasonStart(year.Year), date) : never).Order()];
    }

    /// <summary>The years whose answer is certain, oldest first.</summary>
    public IReadOnlyList<FrostYear> Years { get; }

    /// <summary>The mean day over the years that had a frost, or null when none had.</summary>
    public double? MeanOffsetDays
    {
        get
        {
            var frosts = _offsets.Where(double.IsFinite).ToArray();
            return frosts.Length == 0 ? null : frosts.Average();
        }
    }

    /// <summary>
    /// The day by which the frost falls in so many of a hundred years, years without frost included; null when it falls among those.
    /// Linear between ranks. For a first frost, 10 is the cautious choice; for a last one, 90.
    /// </summary>
    public double? PercentileOffsetDays(double percent)
    {
        if (!(percent is >= 0 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "The percentage must lie between 0 and 100.");
        if (_offsets.Length == 0)
            return null;
        var rank = percent / 100 * (_offsets.Length - 1);
        var below = _offsets[(int)Math.Floor(rank)];
        var above = _offsets[(int)Math.Ceiling(rank)];
        if (!double.IsFinite(below) || !double.IsFinite(above))
            return null;
        return double.Lerp(below, above, rank - Math.Floor(rank));
    }

    /// <summary>The mean as a date of the given calendar year.</summary>
    public LocalDate? MeanIn(int year) => DateIn(year, MeanOffsetDays);

    /// <summary>The percentile as a date of the given calendar year.</summary>
    public LocalDate? PercentileIn(int year, double percent) => DateIn(year, PercentileOffsetDays(percent));

    private LocalDate? DateIn(int year, double? offsetDays) =>
        offsetDays is { } days ? SeasonStart(year).PlusDays((int)Math.Round(days, MidpointRounding.AwayFromZero)) : null;

    // A southern autumn belongs to the season that began the July before.
    private LocalDate SeasonStart(int year) => _hemisphere is Hemisphere.North
        ? new LocalDate(year, 1, 1)
        : new LocalDate(_kind is FrostKind.FirstOfAutumn ? year - 1 : year, 7, 1);
}
