using NodaTime;

namespace Scheduler.Service.Hosting;

/// <summary>Stamps that calendars and HTTP compare: whole seconds, and later than the one before even on a stopped clock.</summary>
internal static class Stamp
{
    public static Instant After(Instant? previous, Instant now)
    {
        var second = Instant.FromUnixTimeSeconds(now.ToUnixTimeSeconds());
        return previous is { } last && last >= second ? last + Duration.FromSeconds(1) : second;
    }
}
