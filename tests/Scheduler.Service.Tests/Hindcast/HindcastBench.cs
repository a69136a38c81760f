using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Hindcast;

namespace Scheduler.Service.Tests.Hindcast;

/// <summary>Invented places and plants as files of the hindcast command, and the command run on them.</summary>
/// <remarks>Buds of the invented plants open on a plain sum of warmth from midwinter on, which is not how the clock reckons.</remarks>
internal sealed class HindcastBench : IDisposable
{
    public const int FirstYear = 2001;
    public const int LastYear = 2014;
    /// <summary>From 1 September to 1 March.</summary>
    public const int HalfYear = 181;

    private static readonly (string Species, string Phase, double NeedCd)[] Plants =
        [("Acer inventum", "bud_break", 110), ("Acer inventum", "leaf_full", 210), ("Fagus inventa", "bud_break", 160), ("Prunus inventa", "first_flowers", 90)];

    private readonly string _folder = Directory.CreateTempSubdirectory("hindcast-").FullName;

    public HindcastBench(double latitude = 48)
    {
        Latitude = latitude;
        Sites = $"site,lat,lon,elev_m\nhill,{latitude.ToString(CultureInfo.InvariantCulture)},8,\n";
        for (var date = new LocalDate(FirstYear - 1, 7, 1); date <= new LocalDate(LastYear + 1, 6, 30); date = date.PlusDays(1))
            Days[date] = (Math.Round(MeanC(date) - 4.5, 1), Math.Round(MeanC(date) + 4.5, 1));
        for (var year = FirstYear; year <= LastYear; year++)
        {
            foreach (var (species, phase, need) in Plants)
                Seen[(species, phase, year)] = Opens(year, need);
        }
    }

    public double Latitude { get; }
    public string Sites { get; set; }
    public SortedDictionary<LocalDate, (double MinC, double MaxC)?> Days { get; } = [];
    public Dictionary<(string Species, string Phase, int Year), LocalDate> Seen { get; } = [];
    /// <summary>Lines below the header, when not <see cref="Seen"/> is meant.</summary>
    public string? ObservationLines { get; set; }
    public string AskedHeader { get; set; } = "site,species,phase,year,issued_on";
    public string Out => Path.Combine(_folder, "out.csv");
    public string Errors { get; private set; } = "";

    public static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;

    /// <summary>The lines of the answer below its header; asserts that the command went well.</summary>
    public IReadOnlyList<string[]> Ask(params string[] lines)
    {
        var code = Run(lines);
        Assert.True(code == 0, Errors);
        var text = File.ReadAllLines(Out);
        Assert.Equal("site,species,phase,year,issued_on,predicted_date,p10,p90", text[0]);
        return [.. text.Skip(1).Select(line => line.Split(','))];
    }

    public int Run(params string[] asked)
    {
        Write("weather.csv", ["site,date,tmin_c,tmax_c,flag", .. Days.Select(day => string.Create(CultureInfo.InvariantCulture,
            $"hill,{day.Key:uuuu-MM-dd},{day.Value?.MinC},{day.Value?.MaxC},o"))]);
        File.WriteAllText(Path.Combine(_folder, "sites.csv"), Sites);
        Write("observations.csv", ["site,species,phase,bbch,year,date", .. ObservationLines is { } own ? own.Split('\n') : Seen.Select(seen => string.Create(CultureInfo.InvariantCulture,
            $"hill,{seen.Key.Species},{seen.Key.Phase},,{seen.Key.Year},{seen.Value:uuuu-MM-dd}"))]);
        Write("asked.csv", [AskedHeader, .. asked]);
        using var errors = new StringWriter();
        var code = HindcastCommand.Run(
            ["--weather", Named("weather.csv"), "--sites", Named("sites.csv"), "--observations", Named("observations.csv"), $"--asked={Named("asked.csv")}", "--out", Out], errors);
        Errors = errors.ToString();
        return code;
    }

    public string Named(string file) => Path.Combine(_folder, file);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private void Write(string file, IEnumerable<string> lines) => File.WriteAllText(Named(file), string.Join('\n', lines) + "\n");

    private LocalDate Opens(int year, double needCd)
    {
        var date = Latitude < 0 ? new LocalDate(year, 7, 1) : new LocalDate(year, 1, 1);
        for (var sum = 0d; ; date = date.PlusDays(1))
        {
            sum += Math.Max(MeanC(date) - 5, 0);
            if (sum >= needCd)
                return date;
        }
    }

    // A yearly wave, years that differ and weeks that differ; half a year later in the south.
    private double MeanC(LocalDate date)
    {
        var north = Latitude < 0 ? date.PlusDays(-HalfYear) : date;
        var ofDay = Period.DaysBetween(new LocalDate(2000, 1, 1), north);
        return 9.5 - 9.5 * Math.Cos((ofDay - 15) * 2 * Math.PI / 365.25)
            + 1.5 * Math.Sin(ofDay / 365.25 * 2.4 * 2.3) + 3 * Math.Sin(ofDay * 0.23) + 1.5 * Math.Sin(ofDay * 0.071);
    }
}
