using System.Text;
using NodaTime.Text;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>
/// What an event says: for somebody at the bench with dirty hands, the work first, then how much, what to beware of,
/// why, and when. Nothing here depends on the day of writing.
/// </summary>
internal static class EventText
{
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMMM uuuu");

    public static string Summary(StoredWindow stored)
    {
        var what = $"{stored.Body.Window.Title}: {stored.Body.TreeName}";
        return PlainText.Line(stored.State switch
        {
            WindowState.Held => what + " (on hold)",
            WindowState.Done => "Done: " + what,
            WindowState.Missed => "Missed: " + what,
            WindowState.Withdrawn => "Called off: " + what,
            _ => what
        });
    }

    public static string Description(StoredWindow stored)
    {
        var window = stored.Body.Window;
        var text = new StringBuilder();
        var isPromise = PromiseWindows.IsPromise(window.Key);
        Line(text, isPromise ? PromiseStanding(window) : Standing(window));
        if (window.State is WindowState.Forecast or WindowState.Open or WindowState.Held)
        {
            List(text, "What to do:", window.How);
            Line(text, window.Amount.Length > 0 ? "How much: " + window.Amount : null);
            List(text, "Beware:", window.Cautions);
        }
        // What holds the work back has been said in the first line.
        var why = window.Reasons.Where(reason => window.State != WindowState.Held || reason.Id != window.Hold).ToList();
        List(text, isPromise ? "Why:" : Why(window.State), [.. why.Select(reason => reason.Text)]);
        if (isPromise && window.State is not WindowState.Withdrawn)
        {
            Line(text, "Due: " + Dates(window.Opens));
            Line(text, window.Closes == window.Opens ? null : "At the latest: " + Dates(window.Closes));
        }
        else if (window.State is not WindowState.Withdrawn)
        {
            Line(text, "Opens: " + Dates(window.Opens));
            Line(text, "Closes: " + Dates(window.Closes));
        }
        if (window.State is not (WindowState.Withdrawn or WindowState.Missed))
            List(text, "Afterwards:", window.Aftercare);
        if (window.State is WindowState.Forecast or WindowState.Open or WindowState.Held)
            Line(text, Effort(window));
        return PlainText.Lines(text.ToString());
    }

    /// <summary>What a planned visit says: when and how long, then the work as its window tells it.</summary>
    public static string Description(DatedVisit dated)
    {
        var (window, visit) = (dated.Window.Body.Window, dated.Visit);
        var text = new StringBuilder();
        Line(text, visit.Visits == 1 ? $"Planned for your free time: about {visit.Minutes} minutes." : $"Planned for your free time: visit {visit.Visit} of {visit.Visits}, about {visit.Minutes} minutes.");
        Line(text, Hands.Needed(window.People) > 1 ? $"It takes {window.People} people." : null);
        Line(text, Standing(window));
        List(text, "What to do:", window.How);
        Line(text, window.Amount.Length > 0 ? "How much: " + window.Amount : null);
        List(text, "Beware:", window.Cautions);
        Line(text, "Window closes: " + Dates(window.Closes));
        List(text, "Afterwards:", window.Aftercare);
        return PlainText.Lines(text.ToString());
    }

    private static string Standing(WorkWindow window) => window.State switch
    {
        WindowState.Forecast => "Not open yet. The dates move with the weather, so look at the tree before you start.",
        WindowState.Open => "Open: the tree is ready for this work.",
        WindowState.Held => Held(window),
        WindowState.Done => "Done. Nothing is left to do in this window.",
        WindowState.Missed => "This window has closed without the work. Do not catch up on it now.",
        WindowState.Withdrawn => "Called off. Leave this work undone.",
        _ => throw new InvalidOperationException($"No text for a window that is {window.State}.")
    };

    // Looks and small duties that earlier work has promised.
    private static string PromiseStanding(WorkWindow window) => window.State switch
    {
        WindowState.Forecast => "Not due yet. The date moves with the weather where it counts growth.",
        WindowState.Open => "Due now.",
        WindowState.Withdrawn => "Called off. Nothing is left to do here.",
        _ => throw new InvalidOperationException($"A promise is never {window.State}.")
    };

    private static string Why(WindowState state) => state switch
    {
        WindowState.Forecast => "Why then:",
        WindowState.Open or WindowState.Held => "Why now:",
        _ => "Why:"
    };

    internal static string Held(WorkWindow window)
    {
        var until = window.HeldUntil is { } day ? $"On hold until {Day.Format(day)}" : "On hold for as far as the forecast reaches";
        var cause = window.Reasons.FirstOrDefault(reason => reason.Id == window.Hold)?.Text ?? window.Hold?.Replace('-', ' ');
        return cause is null ? $"{until}. Wait with this work." : $"{until}: {cause.TrimEnd('.')}. Wait with this work.";
    }

    internal static string Dates(DateBand band)
    {
        if (band.Likely is not { } likely)
            return "not in sight this season";
        if (band.Early == likely && band.Late == likely)
            return Day.Format(likely);
        var early = band.Early is { } first ? Day.Format(first) : "unknown";
        var late = band.Late is { } last ? Day.Format(last) : "perhaps not this season";
        return $"likely {Day.Format(likely)}, early {early}, late {late}";
    }

    private static string? Effort(WorkWindow window)
    {
        var parts = new List<string>();
        if (window.Minutes is { } minutes)
            parts.Add($"about {minutes} minutes a session");
        if (window.Sessions is { } sessions)
            parts.Add(sessions.Low == sessions.High ? Count(sessions.High) : $"{sessions.Low} to {Count(sessions.High)}");
        if (window.People is { } people)
            parts.Add(Hands.Needed(people) > 1 ? $"{people} people" : people);
        return parts.Count == 0 ? null : "Time: " + string.Join(", ", parts);

        static string Count(int count) => count == 1 ? "1 session" : $"{count} sessions";
    }

    internal static void List(StringBuilder text, string heading, IReadOnlyList<string> items)
    {
        if (items.Count == 1)
            Line(text, $"{heading} {items[0]}");
        else if (items.Count > 1)
            Line(text, heading + string.Concat(items.Select(item => "\n- " + item)));
    }

    internal static void Line(StringBuilder text, string? line)
    {
        if (line is not null)
            text.Append(line).Append('\n');
    }
}
