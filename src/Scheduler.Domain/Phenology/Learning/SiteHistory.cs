using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>A place and all its weather, cut into growth years on demand.</summary>
public sealed class SiteHistory
{
    private const int LongestFilledGapDays = 10;
    private const int MostMissingDays = 25;
    private readonly TemperatureSeries _days;
    private readonly double[] _relativeDayLengths;
    private readonly Dictionary<int, SeasonDrivers> _seasons = [];

    public SiteHistory(string id, double latitude, TemperatureSeries days)
    {
        ArgumentNullException.ThrowIfNull(days);
        Id = id;
        Latitude = latitude;
        Hemisphere = Hemisphere.OfLatitude(latitude);
        _relativeDayLengths = SeasonDrivers.RelativeDayLengths(latitude);
        _days = days.FillShortGaps(LongestFilledGapDays);
    }

    public string Id { get; }
    public double Latitude { get; }
    public Hemisphere Hemisphere { get; }
    public int FirstYear => GrowthYear.Of(_days.Start, Hemisphere).Year;
    public int LastYear => GrowthYear.Of(_days.End, Hemisphere).Year;

    public SeasonDrivers Season(int year)
    {
        if (!_seasons.TryGetValue(year, out var season))
            _seasons[year] = season = SeasonDrivers.Of(new GrowthYear(year, Hemisphere), _relativeDayLengths, _days);
        return season;
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
        for (var earlier = year - 1; earlier >= FirstYear && most > 0; earlier--)
        {
            if (!Knows(earlier, 300))
                continue;
            most--;
            yield return Season(earlier);
        }
    }
}
