using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>Until when a 429 of Open-Meteo asks us to wait. Its counters end with the minute, the hour and the day in UTC.</summary>
internal static class OpenMeteoLimits
{
    private static readonly Duration AfterTheWindow = Duration.FromSeconds(5);

    public static Instant WaitUntil(string reason, Instant now, Instant? retryAfter)
    {
        var time = now.InUtc().LocalDateTime;
        var hour = time.Date.At(new LocalTime(time.Hour, 0)).InUtc().ToInstant();
        var end =
            Says("daily") ? time.Date.PlusDays(1).AtMidnight().InUtc().ToInstant()
            : Says("hourly") ? hour + Duration.FromHours(1)
            // Minutely, or too many at once: both are over within a minute.
            : hour + Duration.FromMinutes(time.Minute + 1);
        end += AfterTheWindow;
        return retryAfter is { } asked && asked > end ? asked : end;

        bool Says(string word) => reason.StartsWith(word, StringComparison.OrdinalIgnoreCase);
    }
}
