using System.Collections.Concurrent;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// Day length of every day of a growth year's axis [h], the same in both hemispheres (<see cref="GrowthYear.SolarDayOfYear"/>), and the weight it gives to warmth in spring: (min(L, 16 h) / 12 h)^3.
/// Warm days in the dark of the year move buds less than the same warmth in long days.
/// </summary>
/// <remarks>
/// Form: Blümel and Chmielewski, Agric. For. Meteorol. 164 (2012), degree-days times a power of day length (from memory).
/// The power 3 is this project's: of 0, 1, 2, 3 and 5 it dates flowering cherry, forest trees of New England and shrubs
/// of Korea and Japan best from 1 January on, forecasting each spring from the earlier ones. All species share it.
/// </remarks>
public sealed class SeasonLight
{
    private const double EquinoxHours = 12;
    // No plant of the records behind the power saw longer days in spring; beyond, it would run away toward the poles.
    private const double LongestHours = 16;
    private readonly double[] _hours;
    private readonly double[] _warmthWeight;
    private readonly ConcurrentDictionary<double, double[]> _weights = new();

    public SeasonLight(double latitude, GrowthYear year)
    {
        _hours = new double[year.Days];
        _warmthWeight = new double[year.Days];
        for (var day = 0; day < _hours.Length; day++)
        {
            _hours[day] = DayLength.ForsytheHours(Math.Abs(latitude), GrowthYear.SolarDayOfYear(day));
            var share = Math.Min(_hours[day], LongestHours) / EquinoxHours;
            _warmthWeight[day] = share * share * share;
        }
        HeatStartDay = year.HeatStartDay;
        MidsummerDay = year.MidsummerDay;
    }

    /// <summary>Sunrise to sunset of each axis day [h].</summary>
    public ReadOnlySpan<double> Hours => _hours;

    /// <summary>What a degree-day counts on each axis day; 1 at twelve hours.</summary>
    public ReadOnlySpan<double> WarmthWeight => _warmthWeight;

    /// <summary>Day length relative to twelve hours, to a power: the weight that a shape of the development index gives to warmth.</summary>
    public double[] Weight(double power) =>
        _weights.GetOrAdd(power, exponent => [.. _hours.Select(hours => IndexShape.LightWeight(hours / EquinoxHours, exponent))]);

    /// <summary>Warmth counts from this axis day on.</summary>
    public int HeatStartDay { get; }

    /// <summary>Chill counts until this axis day.</summary>
    public int MidsummerDay { get; }
}
