using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What drives development through one growth year at one place: hourly warmth above several bases [C, mean of the
/// day's hours], day length relative to 12 h, and chill portions at the end of each day. Days are axis days.
/// </summary>
public sealed class SeasonDrivers
{
    public const int HighestBaseC = 10;
    private readonly double[]?[] _warmth = new double[HighestBaseC + 1][];
    private readonly Dictionary<IndexShape, double[]> _growth = [];

    private SeasonDrivers(GrowthYear year, double[] minC, double[] maxC, double[] relativeDayLength, double[] chill, int lastKnownDay, int missingDays)
    {
        (Year, MinC, MaxC, RelativeDayLength, ChillPortions, LastKnownDay, MissingDays) =
            (year, minC, maxC, relativeDayLength, chill, lastKnownDay, missingDays);
    }

    public GrowthYear Year { get; }
    public double[] MinC { get; }
    public double[] MaxC { get; }
    public double[] RelativeDayLength { get; }
    public double[] ChillPortions { get; }
    /// <summary>Last axis day with weather; -1 when there is none.</summary>
    public int LastKnownDay { get; }
    /// <summary>Days without weather up to the last known day.</summary>
    public int MissingDays { get; }
    public int Days => MinC.Length;

    /// <summary>Takes a growth year from a gap-filled series.</summary>
    public static SeasonDrivers Of(GrowthYear year, double latitude, TemperatureSeries days)
    {
        var season = days.Slice(year.ChillStart, year.AxisEnd);
        var chill = new double[season.Count];
        new DynamicModel().StepDays(season.MinC, season.MaxC, chill);
        var relative = new double[season.Count];
        int last = -1, missing = 0, missingSoFar = 0;
        for (var day = 0; day < season.Count; day++)
        {
            relative[day] = DayLength.ForsytheHours(Math.Abs(latitude), GrowthYear.SolarDayOfYear(day)) / 12;
            if (double.IsNaN(season.MinC[day]))
                missingSoFar++;
            else
                (last, missing) = (day, missingSoFar);
        }
        return new SeasonDrivers(year, season.MinC.ToArray(), season.MaxC.ToArray(), relative, chill, last, missing);
    }

    /// <summary>Daily gain of a shape's heat sum: mean hourly warmth times day length to its power.</summary>
    public double[] Growth(IndexShape shape)
    {
        var key = shape with { DaysBeforeUsual = null, ChillRate = 0 };
        if (_growth.TryGetValue(key, out var growth))
            return growth;
        var warmth = Warmth(shape.BaseC);
        growth = new double[Days];
        for (var day = 0; day < Days; day++)
            growth[day] = shape.DayLengthPower == 0 ? warmth[day] : warmth[day] * Math.Pow(RelativeDayLength[day], shape.DayLengthPower);
        return _growth[key] = growth;
    }

    private double[] Warmth(int baseC)
    {
        if (_warmth[baseC] is { } known)
            return known;
        var warmth = new double[Days];
        Span<double> hours = stackalloc double[HourlyCurve.HoursADay];
        for (var day = 0; day < Days; day++)
        {
            if (double.IsNaN(MinC[day]) || MaxC[day] <= baseC)
                continue;
            HourlyCurve.DaySine(MinC[day], MaxC[day], hours);
            var sum = 0d;
            foreach (var hourC in hours)
                sum += Math.Max(hourC - baseC, 0);
            warmth[day] = sum / HourlyCurve.HoursADay;
        }
        return _warmth[baseC] = warmth;
    }
}
