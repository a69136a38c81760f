using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>A day of a garden with where it comes from.</summary>
/// <param name="Model">What the weather source had for the same day where the owner's reading counts.</param>
internal sealed record GardenDay(DayWeather Day, string Source, Instant? FetchedAt, bool Final, DailyTemperature? Model)
{
    /// <summary>Today at the garden; by the planner's rule, a garden without a zone goes by UTC.</summary>
    public static LocalDate Today(WeatherGarden garden, Instant now) => now.InZone(ZoneOf(garden)).Date;

    public static DateTimeZone ZoneOf(WeatherGarden garden) =>
        (garden.TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(garden.TimeZone)) ?? DateTimeZone.Utc;

    /// <summary>The cell's days moved to the garden's height, °C added to all temperatures of a day.</summary>
    public static IEnumerable<GardenDay> Adjusted(IEnumerable<SourceDay> days, double addC) =>
        from day in days
        let minC = Math.Round(day.MinC + addC, 2)
        let maxC = Math.Round(day.MaxC + addC, 2)
        where DailyTemperature.Fault(minC, maxC) is null
        select new GardenDay(
            new DayWeather(day.Date, minC, maxC, day.PrecipMm, day.GustKmh, day.Et0Mm, day.Kind), day.Source, day.FetchedAt, day.Final, null);

    /// <summary>Both ascending; a reading gives the temperatures of its day, the source the rest.</summary>
    public static List<GardenDay> WithReadings(IReadOnlyList<GardenDay> days, IReadOnlyList<DailyTemperature> readings)
    {
        var merged = new List<GardenDay>(days.Count + readings.Count);
        var next = 0;
        foreach (var reading in readings)
        {
            while (next < days.Count && days[next].Day.Date < reading.Date)
                merged.Add(days[next++]);
            var under = next < days.Count && days[next].Day.Date == reading.Date ? days[next++] : null;
            merged.Add(new GardenDay(
                new DayWeather(
                    reading.Date, reading.MinC, reading.MaxC, under?.Day.PrecipMm, under?.Day.GustKmh, under?.Day.Et0Mm, DayKind.Reading),
                SourceNames.Reading, under?.FetchedAt, true,
                under is null ? null : new DailyTemperature(reading.Date, under.Day.MinC, under.Day.MaxC)));
        }
        merged.AddRange(days.Skip(next));
        return merged;
    }
}
