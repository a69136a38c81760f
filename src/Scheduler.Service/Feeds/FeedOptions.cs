namespace Scheduler.Service.Feeds;

/// <summary>How feeds name themselves (<c>Feeds</c> in the settings).</summary>
public sealed class FeedOptions
{
    /// <summary>Right half of the UID of every event. Calendars take events under a new host for new events, so set it
    /// once. Default: <c>scheduler.local</c>.</summary>
    public string Host { get; set; } = "scheduler.local";
}
