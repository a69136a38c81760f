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
    // Cuttings of 19 species forced under 8 h and 12 h differed only by a fifth (Flynn and Wolkovich, New Phytologist 219, 2018);
    // a power of 3 would make it three fourths. Outdoors, days as short as that bring little warmth, and the floor changes no date.
    private const double ShortestHours = 11;
    private readonly double[]?[] _warmth = new double[HighestBaseC + 1][];
    private readonly Dictionary<IndexShape, double[]> _growth = [];
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
    public static SeasonDrivers Of(GrowthYear year, double latitude, TemperatureSeries days)
    {
        var season = days.Slice(year.ChillStart, year.AxisEnd);
        var chill = new double[season.Count];
        new DynamicModel().StepDays(season.MinC, season.MaxC, chill);
        var relative = new double[season.Count];
        int last = -1, missing = 0, missingSoFar = 0;
        for (var day = 0; day < season.Count; day++)
        {
            relative[day] = DayLength.ForsytheHours(latitude, SolarDay(year, day)) / 12;
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

    // A southern year is a northern one half a year later; counting from 1 January of the own half keeps them the same.
    private static int SolarDay(GrowthYear year, int day) => year.DateOf(day).DayOfYear is var ofYear && ofYear > 365 ? 365 : ofYear;

    /// <summary>Daily gain of a shape's heat sum: mean hourly warmth times day length, at least that of 11 h, to its power.</summary>
    public double[] Growth(IndexShape shape)
    {
        var key = shape with { DaysBeforeUsual = null, ChillRate = 0 };
        if (_growth.TryGetValue(key, out var growth))
            return growth;
        var warmth = Warmth(shape.BaseC);
        growth = new double[Days];
        for (var day = 0; day < Days; day++)
            growth[day] = shape.DayLengthPower == 0 ? warmth[day] : warmth[day] * Math.Pow(Math.Max(RelativeDayLength[day], ShortestHours / 12), shape.DayLengthPower);
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
