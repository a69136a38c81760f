using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Feeds;

/// <summary>A local time to the minute, as owners write it: 07:30.</summary>
public static class ClockTime
{
    private static readonly LocalTimePattern Pattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    public static string Text(LocalTime time) => Pattern.Format(time);

    /// <summary>Null when it is no such time.</summary>
    public static LocalTime? Parse(string text) => Pattern.Parse(text).TryGetValue(default, out var time) ? time : null;
}
