using System.Globalization;
using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>
/// An invented place with some invented years of daily weather. A real year shows one of them in turn, so that it never runs out;
/// every invented year has a 29 February, which other years skip.
/// </summary>
internal sealed class RecordedPlace
{
    private const int DaysAYear = 366;
    private const int LeapYear = 2000;
    private readonly (double MinC, double MaxC, double PrecipMm)[] _days;

    private RecordedPlace(string id, Dictionary<string, string> header, (double, double, double)[] days)
    {
        Id = id;
        Name = header["name"];
        Latitude = Number(header["latitude"]);
        Longitude = Number(header["longitude"]);
        ElevationM = Number(header["elevation_m"]);
        _days = days;
    }

    /// <summary>The file's name.</summary>
    public string Id { get; }

    public string Name { get; }

    public double Latitude { get; }

    public double Longitude { get; }

    /// <summary>Height above the sea, in m, for which the temperatures hold.</summary>
    public double ElevationM { get; }

    public int Years => _days.Length / DaysAYear;

    /// <summary>Both days inclusive. Up to and including today a day counts as observed, later as forecast.</summary>
    public IEnumerable<DayWeather> Days(LocalDate from, LocalDate to, LocalDate today)
    {
        for (var date = from; date <= to; date = date.PlusDays(1))
        {
            var year = ((date.Year % Years) + Years) % Years;
            var (minC, maxC, precipMm) = _days[year * DaysAYear + IndexInYear(date.Month, date.Day)];
            yield return new DayWeather(date, minC, maxC, precipMm, null, null, date <= today ? DayKind.Observed : DayKind.Forecast);
        }
    }

    /// <summary>Reads comment lines <c># key: value</c>, a header and one line a day in order, year by year.</summary>
    public static RecordedPlace Read(string file)
    {
        var header = new Dictionary<string, string>();
        var days = new List<(double, double, double)>();
        var lineNumber = 0;
        foreach (var line in File.ReadLines(file))
        {
            lineNumber++;
            if (line.StartsWith('#'))
            {
                if (line.IndexOf(':') is > 0 and var colon)
                    header[line[1..colon].Trim()] = line[(colon + 1)..].Trim();
            }
            else if (days.Count > 0 || line != "year,day,tmin_c,tmax_c,precip_mm")
                days.Add(Day(line.Split(','), days.Count) ?? throw Fault(file, lineNumber, $"'{line}' is not the next day"));
        }
        if (days.Count == 0 || days.Count % DaysAYear != 0)
            throw Fault(file, lineNumber, $"{days.Count} days are no whole years of {DaysAYear} days");
        foreach (var key in new[] { "name", "latitude", "longitude", "elevation_m" }.Where(key => !header.ContainsKey(key)))
            throw Fault(file, 1, $"the comment '# {key}: ...' is missing");
        return new RecordedPlace(Path.GetFileNameWithoutExtension(file), header, [.. days]);
    }

    private static (double, double, double)? Day(string[] cells, int index)
    {
        var date = new LocalDate(LeapYear, 1, 1).PlusDays(index % DaysAYear);
        var year = index / DaysAYear + 1;
        if (cells.Length != 5 || cells[0] != year.ToString(CultureInfo.InvariantCulture)
            || cells[1] != string.Create(CultureInfo.InvariantCulture, $"{date.Month:00}-{date.Day:00}"))
            return null;
        return (Number(cells[2]), Number(cells[3]), Number(cells[4]));
    }

    private static int IndexInYear(int month, int day) => new LocalDate(LeapYear, month, day).DayOfYear - 1;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static InvalidDataException Fault(string file, int line, string what) => new($"{file}, line {line}: {what}.");
}
