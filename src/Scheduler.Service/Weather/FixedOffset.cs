using System.Globalization;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>
/// The days of a cell are cut by one offset from UTC, in whole hours, all year round. The source uses the offset of the moment of
/// asking for every day of an answer, so with summer time the same past day would cover other hours in July than in December.
/// </summary>
internal static class FixedOffset
{
    /// <summary>The zone's offset without summer time, in whole hours, rounded down as the source does.</summary>
    public static int StandardHours(DateTimeZone zone, Instant now) =>
        (int)Math.Floor(zone.GetZoneInterval(now).StandardOffset.Seconds / 3600.0);

    /// <summary>The offset by the sun alone: 15° of longitude an hour.</summary>
    public static int OfLongitude(double longitude) =>
        Math.Clamp((int)Math.Round(longitude / 15, MidpointRounding.AwayFromZero), -12, 12);

    /// <summary>The IANA id of a fixed offset. Its sign is turned round by an old convention: UTC+1 is <c>Etc/GMT-1</c>.</summary>
    public static string ZoneId(int hours)
    {
        // IANA has Etc/GMT+12 to Etc/GMT-14.
        if (hours is < -12 or > 14)
            throw new ArgumentOutOfRangeException(nameof(hours), hours, "No zone has this offset.");
        return hours == 0 ? "Etc/GMT" : string.Create(CultureInfo.InvariantCulture, $"Etc/GMT{(hours > 0 ? '-' : '+')}{Math.Abs(hours)}");
    }

    public static LocalDate Today(Instant now, int hours) => now.WithOffset(Offset.FromHours(hours)).Date;
}
