using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Roads;

/// <summary>A parcel as the few words that fit a phone's notification.</summary>
internal static class PushText
{
    private const int LinesShown = 4;
    private const int MaxLine = 120;
    private const int MaxAmount = 300;

    private static readonly Duration Shortest = Duration.FromHours(1);
    private static readonly Duration Longest = Duration.FromDays(7);

    public static PushBody Of(Parcel parcel, OwnerWords words)
    {
        var first = parcel.Shown[0];
        var garden = PlainText.Line(first.Window.Body.GardenName);
        if (parcel.IsUrgent)
        {
            var trees = string.Join(", ", parcel.Shown.Select(item => item.Window.Body.TreeName));
            return new PushBody(
                parcel.Shown.Count == 1 ? words["Push.Frost", garden] : words["Push.FrostTrees", garden, parcel.Shown.Count],
                $"{Cut(PlainText.Line(trees), MaxAmount)}. {Cut(PlainText.Line(first.Work.Amount), MaxAmount)}", "/");
        }
        if (parcel.Shown.Count == 1)
            return new PushBody(Cut(PlainText.Line($"{first.Work.Title}: {first.Window.Body.TreeName}"), MaxLine), $"{NoticeText.When(first, parcel.Day, words)} ({garden})", "/");
        var lines = parcel.Shown.Take(LinesShown).Select(item => Cut(NoticeText.Line(item, parcel.Day, words), MaxLine)).ToList();
        if (parcel.Shown.Count > LinesShown)
            lines.Add(words["Push.More", parcel.Shown.Count - LinesShown]);
        return new PushBody(words["Push.Jobs", garden, parcel.Shown.Count], string.Join('\n', lines), "/");
    }

    /// <summary>How long a push service keeps it for a phone that is off: while any of it matters, at least an hour, at most a week.</summary>
    public static Duration Lives(Parcel parcel, Instant now) => Duration.Max(Shortest, Duration.Min(Longest, parcel.Until - now));

    private static string Cut(string text, int max)
    {
        if (text.Length <= max)
            return text;
        var end = max - 3;
        return text[..(char.IsHighSurrogate(text[end - 1]) ? end - 1 : end)] + "...";
    }
}
