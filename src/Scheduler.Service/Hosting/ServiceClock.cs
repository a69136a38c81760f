using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Hosting;

/// <summary>The service's clock: the system's, or one that <c>Clock:AsOf</c> has stopped for demonstrations and checks.</summary>
public static class ServiceClock
{
    private const string Setting = "Clock:AsOf";

    public static void AddClock(this WebApplicationBuilder builder) => builder.Services.AddSingleton(Of(builder.Configuration));

    /// <summary>The clock that the settings ask for.</summary>
    public static IClock Of(IConfiguration settings) =>
        settings[Setting] is { } asOf && !string.IsNullOrWhiteSpace(asOf) ? new StoppedClock(Parse(asOf)) : SystemClock.Instance;

    /// <summary>An instant as given; a date stands for noon in UTC, which is that date in nearly all time zones.</summary>
    internal static Instant Parse(string asOf)
    {
        if (LocalDatePattern.Iso.Parse(asOf).TryGetValue(default, out var date))
            return (date + new LocalTime(12, 0)).InUtc().ToInstant();
        var parsed = InstantPattern.ExtendedIso.Parse(asOf);
        return parsed.Success
            ? parsed.Value
            : throw new InvalidOperationException($"{Setting} is '{asOf}'. Give an ISO date or instant, such as 2026-04-01 or 2026-04-01T06:00:00Z.");
    }

    private sealed class StoppedClock(Instant instant) : IClock
    {
        public Instant GetCurrentInstant() => instant;
    }
}
