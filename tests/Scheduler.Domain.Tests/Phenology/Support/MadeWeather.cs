using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology.Support;

/// <summary>Invented weather: a yearly wave with waves of a few days and weeks on it, no two years alike, always the same.</summary>
internal sealed record MadeWeather
{
    public double Latitude { get; init; } = 40;
    public double MeanC { get; init; } = 12;
    public double AmplitudeC { get; init; } = 12;
    public double DailyRangeC { get; init; } = 10;
    public double NoiseC { get; init; } = 5;

    public static MadeWeather Temperate => new();
    public static MadeWeather Equator => new() { Latitude = 2, MeanC = 26, AmplitudeC = 1, NoiseC = 1.5 };
    public static MadeWeather MildWinter => new() { Latitude = 34, MeanC = 17, AmplitudeC = 7 };

    public SiteWeather Site(LocalDate from, LocalDate to, LocalDate today) => new(Latitude, today, Days(from, to));

    public TemperatureSeries Days(LocalDate from, LocalDate to) =>
        TemperatureSeries.From(Enumerable.Range(0, Period.DaysBetween(from, to) + 1).Select(day => Day(from.PlusDays(day))));

    private DailyTemperature Day(LocalDate date)
    {
        var day = Period.DaysBetween(new LocalDate(1950, 1, 1), date);
        // Coldest about 20 January in the north, half a year later in the south.
        var phase = 2 * Math.PI * (day - 20) / 365.2425 + (Latitude < 0 ? Math.PI : 0);
        var noise = (Math.Sin(day * 0.61) + Math.Sin(day * 0.173 + 1) + Math.Sin(day * 0.0521 + 2)) / 3;
        var meanC = MeanC - AmplitudeC * Math.Cos(phase) + NoiseC * noise;
        return new DailyTemperature(date, meanC - DailyRangeC / 2, meanC + DailyRangeC / 2);
    }
}
