using NodaTime;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Hindcast;

/// <summary>Reads the input files of the hindcast and notes every fault they have.</summary>
internal static class HindcastReader
{
    private static readonly string[] SiteColumns = ["site", "lat", "lon", "elev_m"];
    private static readonly string[] WeatherColumns = ["site", "date", "tmin_c", "tmax_c"];
    private static readonly string[] ObservationColumns = ["site", "species", "phase", "year", "date"];
    private static readonly string[] AskedColumns = ["site", "species", "phase", "year"];

    /// <summary>Null when there is any fault.</summary>
    public static HindcastInput? Read(string weather, string sites, string observations, string asked, InputFaults faults)
    {
        var latitudes = Latitudes(sites, faults);
        var histories = Weather(weather, latitudes, sites, faults);
        var (dates, autumns) = Observations(observations, latitudes, sites, faults);
        var questions = Asked(asked, latitudes, sites, faults);
        return faults.All.Count > 0 ? null : new HindcastInput(histories, Hemispheres(latitudes), autumns, dates, questions);
    }

    public static Dictionary<string, double> Latitudes(string path, InputFaults faults)
    {
        var latitudes = new Dictionary<string, double>(StringComparer.Ordinal);
        CsvFile.Read(path, SiteColumns, faults, row =>
        {
            var (site, latitude) = (row.Name("site"), row.Number("lat", -90, 90));
            if (site is not null && latitude is { } degrees && !latitudes.TryAdd(site, degrees) && latitudes[site] != degrees)
                row.Fault("site", "stands here twice with different latitudes", "Keep one line a site.");
        });
        return latitudes;
    }

    public static Dictionary<string, SiteHistory> Weather(string path, IReadOnlyDictionary<string, double> latitudes, string sitesPath, InputFaults faults)
    {
        var days = new Dictionary<string, Dictionary<LocalDate, DailyTemperature>>(StringComparer.Ordinal);
        var strange = new HashSet<string>(StringComparer.Ordinal);
        CsvFile.Read(path, WeatherColumns, faults, row =>
        {
            if (row.Name("site") is not { } site || row.Date("date") is not { } date)
                return;
            if (!latitudes.ContainsKey(site))
            {
                // One site is one fault, not one a day.
                if (strange.Add(site))
                    NoSite(row, sitesPath);
                return;
            }
            if (row.Raw("tmin_c").Length == 0 || row.Raw("tmax_c").Length == 0)
                return;
            var lowest = row.Number("tmin_c", DailyTemperature.ColdestC, DailyTemperature.HottestC);
            var highest = row.Number("tmax_c", DailyTemperature.ColdestC, DailyTemperature.HottestC);
            if (lowest is not { } minC || highest is not { } maxC)
                return;
            if (minC > maxC)
            {
                row.Fault("tmin_c", $"is above tmax_c '{row.Raw("tmax_c")}'", "Correct the two, or leave both empty.");
                return;
            }
            var known = days.TryGetValue(site, out var found) ? found : days[site] = [];
            var day = new DailyTemperature(date, minC, maxC);
            if (!known.TryAdd(date, day) && known[date] != day)
                row.Fault("date", $"stands here twice for site '{site}' with different temperatures", "Keep one line a day.");
        });
        return days.ToDictionary(pair => pair.Key, pair => new SiteHistory(pair.Key, latitudes[pair.Key], TemperatureSeries.From(pair.Value.Values)), StringComparer.Ordinal);
    }

    /// <summary>A line without a date teaches nothing; several lines of one plant kind and season count as their mean.</summary>
    public static (List<PhaseDate> Dates, HashSet<string> AutumnsByGrowthYear) Observations(
        string path, IReadOnlyDictionary<string, double> latitudes, string sitesPath, InputFaults faults)
    {
        var rows = new List<(PhaseDate Date, int Stated)>();
        CsvFile.Read(path, ObservationColumns, faults, row =>
        {
            var key = Key(row, latitudes, sitesPath);
            if (row.Year("year") is not { } year || row.OptionalDate("date") is not { } date || key is null)
                return;
            var hemisphere = Hemisphere.OfLatitude(latitudes[key.Site]);
            var byDate = PhaseYears.Of(key.Phase, date, hemisphere);
            var axis = PhaseYears.IsAutumn(key.Phase) && hemisphere == Hemisphere.South && byDate.Year == year
                ? byDate
                : PhaseYears.Of(key.Phase, year, hemisphere, autumnsByGrowthYear: false);
            if (PhaseYears.Fits(key.Phase, axis, date))
                rows.Add((new PhaseDate(key.Site, key.Kind, key.Phase, axis.Year, axis.DayOf(date)), year));
            else
                row.Fault("date", $"does not lie in season {year}", PhaseYears.IsAutumn(key.Phase)
                    ? "The year of an autumn phase is its calendar year."
                    : "The year is the one in which the spring begins; what opens in December (June in the south) belongs to the spring that follows.");
        });
        var byGrowthYear = rows.Where(row => PhaseYears.IsAutumn(row.Date.Phase) && latitudes[row.Date.Site] < 0)
            .GroupBy(row => row.Date.Site)
            .Where(site => site.Count(row => row.Stated == row.Date.Year) * 2 > site.Count())
            .Select(site => site.Key).ToHashSet(StringComparer.Ordinal);
        var dates = rows.Select(row => row.Date).GroupBy(date => (date.Series, date.Year))
            .Select(same => same.First() with { Day = same.Average(date => date.Day) });
        return ([.. dates], byGrowthYear);
    }

    private static List<Question> Asked(string path, IReadOnlyDictionary<string, double> latitudes, string sitesPath, InputFaults faults)
    {
        var asked = new List<Question>();
        CsvFile.Read(path, AskedColumns, faults, row =>
        {
            var key = Key(row, latitudes, sitesPath);
            var year = row.Year("year");
            var hasIssue = row.Raw("issued_on").Length > 0;
            var issuedOn = row.OptionalDate("issued_on");
            if (key is not null && year is not null && hasIssue == issuedOn is not null)
                asked.Add(new Question(key, year.Value, issuedOn));
        });
        return asked;
    }

    private static SeriesKey? Key(CsvRow row, IReadOnlyDictionary<string, double> latitudes, string sitesPath)
    {
        string? site = row.Name("site"), species = row.Name("species"), phase = row.Name("phase");
        if (site is not null && !latitudes.ContainsKey(site))
        {
            NoSite(row, sitesPath);
            return null;
        }
        return site is null || species is null || phase is null ? null : new SeriesKey(site, species, phase);
    }

    private static void NoSite(CsvRow row, string sitesPath) =>
        row.Fault("site", $"is not in {sitesPath}", "Add the site there with its latitude, or correct the name.");

    private static Dictionary<string, Hemisphere> Hemispheres(Dictionary<string, double> latitudes) =>
        latitudes.ToDictionary(pair => pair.Key, pair => Hemisphere.OfLatitude(pair.Value), StringComparer.Ordinal);
}
