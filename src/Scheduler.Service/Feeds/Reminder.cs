using System.Globalization;
using System.Text.RegularExpressions;

namespace Scheduler.Service.Feeds;

/// <summary>
/// How long before the start of an all-day event a calendar rings, counted from midnight: <c>PT15H</c> is nine in the
/// morning of the day before. Whole minutes, because phones keep alarms so; at most thirty days.
/// </summary>
public sealed partial record Reminder
{
    private const int MaxMinutes = 30 * 24 * 60;

    private Reminder(string text, int days, int minutes)
    {
        Text = text;
        Days = days;
        Minutes = minutes;
    }

    /// <summary>As the owner wrote it (ISO 8601).</summary>
    public string Text { get; }

    /// <summary>Whole calendar days before the start.</summary>
    public int Days { get; }

    /// <summary>Minutes before the start, on top of the days.</summary>
    public int Minutes { get; }

    /// <summary>Null when it is no duration of days, hours and minutes up to thirty days.</summary>
    public static Reminder? Parse(string? text)
    {
        if (text is null || Pattern().Match(text) is not { Success: true } match)
            return null;
        var days = 7 * Part(match, "weeks") + Part(match, "days");
        var seconds = 3600 * Part(match, "hours") + 60 * Part(match, "minutes") + Part(match, "seconds");
        if (seconds % 60 != 0 || days * 1440 + seconds / 60 > MaxMinutes)
            return null;
        return new Reminder(text, (int)days, (int)(seconds / 60));
    }

    private static long Part(Match match, string name) =>
        match.Groups[name] is { Success: true } group ? long.Parse(group.Value, CultureInfo.InvariantCulture) : 0;

    // Months and years have no fixed length and are no durations in a calendar (RFC 5545 section 3.3.6).
    [GeneratedRegex(@"\AP(?!\z)((?<weeks>[0-9]{1,7})W)?((?<days>[0-9]{1,7})D)?(T(?!\z)((?<hours>[0-9]{1,7})H)?((?<minutes>[0-9]{1,7})M)?((?<seconds>[0-9]{1,7})S)?)?\z",
        RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
