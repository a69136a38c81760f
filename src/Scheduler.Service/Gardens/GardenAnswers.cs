using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Weather;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Gardens;

/// <summary>Adds to a garden what follows from its place and its weather.</summary>
public sealed class GardenAnswers(IGardenWeather weather)
{
    /// <summary>Winters that decide a hardiness zone, as the published zone maps use (30-year normals).</summary>
    private const int Winters = 30;

    /// <summary>Winters that do: four fifths, the share that the WMO asks of a 30-year normal (WMO-No. 1203, from memory).</summary>
    private const int WintersNeeded = 24;

    public async Task<GardenAnswer> ShowAsync(Garden garden, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(garden);
        var known = await weather.DaysAsync(garden.Id, cancel);
        var hemisphere = Hemisphere.OfLatitude(garden.Latitude);
        var found = garden.HardinessZone is null ? ZoneOf(known.Days, hemisphere) : null;
        return new GardenAnswer(
            garden.Id, garden.Name, garden.Latitude, garden.Longitude, garden.ElevationM ?? garden.CellElevationM,
            garden.TimeZone ?? garden.CellTimeZone, hemisphere,
            garden.HardinessZone ?? found, garden.HardinessZone is not null ? "owner" : found is not null ? "weather" : null,
            garden.TemperatureOffsetC, garden.WorkDays, garden.Exceptions, garden.FirstFrostChoice, garden.WaterAssured, garden.FrostFreeShelter,
            known.Status, garden.CreatedAt, garden.ChangedAt);
    }

    /// <summary>The zone of a garden: the owner's, or that of its winters; null while too few are known.</summary>
    public async Task<string?> ZoneAsync(Garden garden, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(garden);
        return garden.HardinessZone ?? ZoneOf((await weather.DaysAsync(garden.Id, cancel)).Days, Hemisphere.OfLatitude(garden.Latitude));
    }

    /// <summary>The zone of the mean lowest temperature of the last 30 winters, or null while fewer than 24 of them are known.</summary>
    internal static string? ZoneOf(IReadOnlyList<DayWeather> days, Hemisphere hemisphere)
    {
        var past = days.Where(day => day.Kind is not DayKind.Forecast).Select(day => new DailyTemperature(day.Date, day.MinC, day.MaxC)).ToList();
        if (past.Count == 0)
            return null;
        var winters = ExtremeMinimum.OfWinters(TemperatureSeries.From(past), hemisphere);
        return winters.Count < WintersNeeded ? null : HardinessZone.OfExtremeMinimum(winters.TakeLast(Winters).Average(winter => winter.MinC)).ToString();
    }
}
