using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>A place and all its weather, cut into growth years on demand.</summary>
public sealed class SiteHistory
{
    private const int LongestFilledGapDays = 10;
    private const int MostMissingDays = 25;
    private const int SeasonDays = 365;
    private readonly TemperatureSeries _read;
    private readonly TemperatureSeries _days;
    private readonly double[] _relativeDayLengths;
    private readonly Dictionary<int, SeasonDrivers> _seasons = [];
    private readonly SiteHistory? _whole;
    private readonly int _runningYear;

    public SiteHistory(string id, double latitude, TemperatureSeries days)
    {
        ArgumentNullException.ThrowIfNull(days);
        Id = id;
        Latitude = latitude;
        Hemisphere = Hemisphere.OfLatitude(latitude);
        _relativeDayLengths = SeasonDrivers.RelativeDayLengths(latitude);
        _read = days;
        _days = days.FillShortGaps(LongestFilledGapDays);
        LastYear = GrowthYear.Of(_days.End, Hemisphere).Year;
    }

    private SiteHistory(SiteHistory whole, int runningYear, int lastWholeYear)
    {
        (Id, Latitude, Hemisphere, _read, _days) = (whole.Id, whole.Latitude, whole.Hemisphere, whole._read, whole._days);
        _relativeDayLengths = whole._relativeDayLengths;
        (_whole, _runningYear, LastYear) = (whole, runningYear, lastWholeYear);
    }

    public string Id { get; }
    public double Latitude { get; }
    public Hemisphere Hemisphere { get; }
    public int FirstYear => GrowthYear.Of(_days.Start, Hemisphere).Year;
    /// <summary>The last growth year that may stand in for another.</summary>
    public int LastYear { get; }

    /// <summary>
    /// The same place for forecasts issued while the season of <paramref name="year"/> runs. Gaps of that season are
    /// filled from the day before only, so that no day holds anything of a later one, and no year after
    /// <paramref name="lastWholeYear"/> stands in for another. Later years still teach where dates of them are given.
    /// </summary>
    public SiteHistory During(int year, int lastWholeYear) => new(this, year, lastWholeYear);

    /// <summary>The last growth year before this one that was over on a day, with all that fills its gaps.</summary>
    public static int LastWholeYear(GrowthYear before, LocalDate on)
    {
        var last = before.Previous;
        while (last.DateOf(SeasonDays + LongestFilledGapDays) > on)
            last = last.Previous;
        return last.Year;
    }

    public SeasonDrivers Season(int year)
    {
        if (_whole is not null && year != _runningYear)
            return _whole.Season(year);
        if (!_seasons.TryGetValue(year, out var season))
            _seasons[year] = season = SeasonDrivers.Of(new GrowthYear(year, Hemisphere), _relativeDayLengths, _whole is null ? _days : HeldForward(year));
        return season;
    }

    private TemperatureSeries HeldForward(int year)
    {
        var axis = new GrowthYear(year, Hemisphere);
        return _read.Slice(axis.ChillStart.PlusDays(-LongestFilledGapDays), axis.AxisEnd).HoldForward(LongestFilledGapDays);
    }

    /// <summary>True when the season's weather reaches this axis day with few gaps, so that it may teach or be forecast.</summary>
    public bool Knows(int year, double throughDay)
    {
        var season = Season(year);
        return season.LastKnownDay >= Math.Min(throughDay, 300) && season.MissingDays <= MostMissingDays;
    }

    /// <summary>Earlier growth years whose weather is known through spring and summer, newest first.</summary>
    public IEnumerable<SeasonDrivers> EarlierYears(int year, int most)
    {
        for (var earlier = Math.Min(year - 1, LastYear); earlier >= FirstYear && most > 0; earlier--)
        {
            if (!Knows(earlier, 300))
                continue;
            most--;
            yield return Season(earlier);
        }
    }
}
