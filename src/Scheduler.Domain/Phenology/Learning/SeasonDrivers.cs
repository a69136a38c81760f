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
    private const int DaysOfYear = 365;
    private readonly double[]?[] _warmth = new double[HighestBaseC + 1][];
    private readonly Dictionary<IndexShape, double[]> _growth = [];
    private readonly Dictionary<IndexShape, double[]> _heat = [];
    private double[]? _dayLengthHours;

    private SeasonDrivers(GrowthYear year, double[] minC, double[] maxC, double[] relativeDayLength, double[] chill, int lastKnownDay, int missingDays)
    {
        (Year, MinC, MaxC, RelativeDayLength, ChillPortions, LastKnownDay, MissingDays) =
            (year, minC, maxC, relativeDayLength, chill, lastKnownDay, missingDays);
    }

    public GrowthYear Year { get; }
    public double[] MinC { get; }
    public double[] MaxC { get; }
    public double[] RelativeDayLength { get; }
    public double[] DayLengthHours => _dayLengthHours ??= [.. RelativeDayLength.Select(share => share * 12)];
    public double[] ChillPortions { get; }
    /// <summary>Last axis day with weather; -1 when there is none.</summary>
    public int LastKnownDay { get; }
    /// <summary>Days without weather up to the last known day.</summary>
    public int MissingDays { get; }
    public int Days => MinC.Length;

    /// <summary>Takes a growth year from a gap-filled series.</summary>
    public static SeasonDrivers Of(GrowthYear year, double latitude, TemperatureSeries days) =>
        Of(year, RelativeDayLengths(latitude), days);

    /// <summary>Day length of each day of the axis, relative to 12 h, over a year; what all years of a place share.</summary>
    internal static double[] RelativeDayLengths(double latitude) =>
        [.. Enumerable.Range(0, DaysOfYear).Select(day => DayLength.ForsytheHours(Math.Abs(latitude), GrowthYear.SolarDayOfYear(day)) / 12)];

    internal static SeasonDrivers Of(GrowthYear year, double[] relativeDayLengths, TemperatureSeries days)
    {
        var season = days.Slice(year.ChillStart, year.AxisEnd);
        var chill = new double[season.Count];
        new TabulatedChill().StepDays(season.MinC, season.MaxC, chill);
        var relative = new double[season.Count];
        int last = -1, missing = 0, missingSoFar = 0;
        for (var day = 0; day < season.Count; day++)
        {
            relative[day] = relativeDayLengths[day % relativeDayLengths.Length];
            if (double.IsNaN(season.MinC[day]))
                missingSoFar++;
            else
                (last, missing) = (day, missingSoFar);
        }
        return new SeasonDrivers(year, season.MinC.ToArray(), season.MaxC.ToArray(), relative, chill, last, missing);
    }

    /// <summary>
    /// A season given day by day, as in a growth chamber: day length and chill are set, not worked out. All four are as
    /// long as the season; the days stand on the axis of <paramref name="year"/>.
    /// </summary>
    public static SeasonDrivers Given(GrowthYear year, double[] minC, double[] maxC, double[] relativeDayLength, double[] chillPortions)
    {
        if (maxC.Length != minC.Length || relativeDayLength.Length != minC.Length || chillPortions.Length != minC.Length)
            throw new ArgumentException("All drivers of a season must be of the same length.");
        return new SeasonDrivers(year, minC, maxC, relativeDayLength, chillPortions, minC.Length - 1, 0);
    }

    /// <summary>Daily gain of a shape's heat sum: mean hourly warmth times day length, at least that of 11 h, to its power.</summary>
    public double[] Growth(IndexShape shape)
    {
        var key = shape with { DaysBeforeUsual = null, ChillRate = 0 };
        if (_growth.TryGetValue(key, out var growth))
            return growth;
        var warmth = Warmth(shape.BaseC);
        growth = new double[Days];
        for (var day = 0; day < Days; day++)
            growth[day] = warmth[day] * IndexShape.LightWeight(RelativeDayLength[day], shape.DayLengthPower);
        return _growth[key] = growth;
    }

    /// <summary>Running total of <see cref="Growth"/> at the end of each day, from the axis' first day on.</summary>
    public double[] Heat(IndexShape shape)
    {
        var key = shape with { DaysBeforeUsual = null, ChillRate = 0 };
        if (_heat.TryGetValue(key, out var heat))
            return heat;
        var growth = Growth(shape);
        heat = new double[Days];
        var sum = 0d;
        for (var day = 0; day < heat.Length; day++)
            heat[day] = sum += growth[day];
        return _heat[key] = heat;
    }

    private double[] Warmth(int baseC)
    {
        if (_warmth[baseC] is { } known)
            return known;
        var warmth = new double[Days];
        for (var day = 0; day < Days; day++)
        {
            if (MinC[day] >= baseC)
                warmth[day] = (MinC[day] + MaxC[day]) / 2 - baseC;
            else if (MaxC[day] > baseC)
                warmth[day] = MeanAbove(MinC[day] - baseC, MaxC[day] - MinC[day]);
        }
        return _warmth[baseC] = warmth;
    }

    // The hours between the lowest and the highest come twice a day.
    private static double MeanAbove(double lowest, double range)
    {
        var shares = HourlyCurve.RisingShares;
        var sum = lowest + range;
        foreach (var share in shares[1..^1])
        {
            var above = lowest + range * share;
            if (above > 0)
                sum += 2 * above;
        }
        return sum / HourlyCurve.HoursADay;
    }
}
