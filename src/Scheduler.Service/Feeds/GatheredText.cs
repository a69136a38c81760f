using System.Text;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>What a gathered event says: the trees first, each with its dates, then the work, said once where it is the same for several trees.</summary>
internal static class GatheredText
{
    /// <summary>Trees that a heading names before it counts the rest.</summary>
    private const int NamedTrees = 3;

    public static string Heading(IReadOnlyList<StoredWindow> windows)
    {
        var title = windows.GroupBy(window => window.Body.Window.Title, StringComparer.Ordinal)
            .OrderByDescending(same => same.Count()).ThenBy(same => same.Key, StringComparer.Ordinal).First().Key;
        var names = windows.Select(window => PlainText.Line(window.Body.TreeName)).Distinct(StringComparer.Ordinal).ToList();
        return PlainText.Line(names.Count <= NamedTrees
            ? $"{title}: {string.Join(", ", names)}"
            : $"{title}: {string.Join(", ", names.Take(NamedTrees - 1))} and {names.Count - NamedTrees + 1} more");
    }

    public static string Summary(IReadOnlyList<StoredWindow> windows)
    {
        var heading = Heading(windows);
        var pending = windows.Where(window => EachEvents.IsPending(window.State)).ToList();
        if (pending.Count > 0)
            return pending.TrueForAll(window => window.State is WindowState.Held) ? heading + " (on hold)" : heading;
        var isDone = windows.Any(window => window.State is WindowState.Done);
        return windows.All(window => window.State is WindowState.Missed) ? "Missed: " + heading : isDone ? "Done: " + heading : heading;
    }

    public static string Description(IReadOnlyList<StoredWindow> windows)
    {
        var text = new StringBuilder();
        EventText.List(text, "Trees:", [.. windows.Select(Tree)]);
        var pending = windows.Where(window => EachEvents.IsPending(window.State)).ToList();
        Work(text, pending);
        Sections(text, pending, "Why", window => [.. window.Reasons.Where(reason => window.State != WindowState.Held || reason.Id != window.Hold).Select(reason => reason.Text)]);
        Sections(text, pending, "Afterwards", window => window.Aftercare);
        if (pending.Sum(window => window.Body.Window.Minutes ?? 0) is > 0 and var minutes)
            EventText.Line(text, $"Time: about {minutes} minutes for one session with each");
        return PlainText.Lines(text.ToString());
    }

    /// <summary>What the plan has for one technique on one day.</summary>
    public static string Description(IReadOnlyList<DatedVisit> visits)
    {
        var text = new StringBuilder();
        EventText.Line(text, $"Planned for your free time: about {visits.Sum(visit => visit.Visit.Minutes)} minutes.");
        EventText.List(text, "Trees:", [.. visits.Select(visit => $"{Tree(visit.Window)}; about {visit.Visit.Minutes} minutes"
            + (Hands.Needed(visit.Window.Body.Window.People) > 1 ? $", {visit.Window.Body.Window.People} people" : "")
            + (visit.Visit.Visits == 1 ? "" : $", visit {visit.Visit.Visit} of {visit.Visit.Visits}"))]);
        List<StoredWindow> windows = [.. visits.Select(visit => visit.Window).DistinctBy(window => window.Id)];
        Work(text, windows);
        Sections(text, windows, "Afterwards", window => window.Aftercare);
        return PlainText.Lines(text.ToString());
    }

    private static void Work(StringBuilder text, List<StoredWindow> windows)
    {
        Sections(text, windows, "What to do", window => window.How);
        Sections(text, windows, "How much", window => window.Amount.Length > 0 ? [window.Amount] : []);
        Sections(text, windows, "Beware", window => window.Cautions);
    }

    private static string Tree(StoredWindow stored)
    {
        var window = stored.Body.Window;
        var isPromise = PromiseWindows.IsPromise(stored.Key);
        var standing = window.State switch
        {
            WindowState.Forecast => isPromise ? "not due yet" : "not open yet",
            WindowState.Open => isPromise ? "due now" : "open",
            WindowState.Held => EventText.Held(window).TrimEnd('.').ToLowerFirst(),
            WindowState.Done => "done",
            WindowState.Missed => "closed without the work; do not catch up on it now",
            WindowState.Withdrawn => "called off",
            _ => throw new InvalidOperationException($"No text for a window that is {window.State}.")
        };
        var (opens, closes) = (EventText.Dates(window.Opens), EventText.Dates(window.Closes));
        var dates = isPromise ? window.Opens == window.Closes ? $"due {opens}" : $"due {opens}; at the latest {closes}" : $"opens {opens}; closes {closes}";
        return $"{PlainText.Line(stored.Body.TreeName)}: {standing}; {dates}";
    }

    // The same words for several trees are said once; where they differ, the trees that they are for stand behind the heading.
    private static void Sections(StringBuilder text, List<StoredWindow> windows, string heading, Func<WorkWindow, IReadOnlyList<string>> itemsOf)
    {
        var groups = windows.Select(window => (Stored: window, Items: itemsOf(window.Body.Window)))
            .GroupBy(one => string.Join('\n', one.Items), StringComparer.Ordinal).ToList();
        foreach (var group in groups)
        {
            var names = group.Select(one => PlainText.Line(one.Stored.Body.TreeName)).Distinct(StringComparer.Ordinal);
            EventText.List(text, groups.Count == 1 ? heading + ":" : $"{heading} ({string.Join(", ", names)}):", group.First().Items);
        }
    }

    private static string ToLowerFirst(this string text) => text.Length == 0 ? text : char.ToLowerInvariant(text[0]) + text[1..];
}
