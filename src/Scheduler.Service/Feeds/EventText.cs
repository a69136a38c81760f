using System.Text;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Accounts;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>
/// What an event says: for somebody at the bench with dirty hands, the work first, then how much, what to beware of,
/// why, and when. Nothing here depends on the day of writing.
/// </summary>
internal static class EventText
{
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

    /// <param name="said">Null: English, as in all feeds.</param>
    public static string Description(StoredWindow stored, OwnerWords? said = null)
    {
        var words = said ?? OwnerWords.English;
        var window = stored.Body.Window;
        var text = new StringBuilder();
        var isPromise = PromiseWindows.IsPromise(window.Key);
        Line(text, isPromise ? PromiseStanding(window, words) : Standing(window, words));
        if (window.State is WindowState.Forecast or WindowState.Open or WindowState.Held)
        {
            List(text, words["Event.How"], window.How);
            Line(text, window.Amount.Length > 0 ? words["Event.Amount", window.Amount] : null);
            List(text, words["Event.Cautions"], window.Cautions);
        }
        // What holds the work back has been said in the first line.
        var why = window.Reasons.Where(reason => window.State != WindowState.Held || reason.Id != window.Hold).ToList();
        List(text, isPromise ? words["Event.Why"] : Why(window.State, words), [.. why.Select(reason => reason.Text)]);
        if (isPromise && window.State is not WindowState.Withdrawn)
        {
            Line(text, words["Event.Due", Dates(window.Opens, words)]);
            Line(text, window.Closes == window.Opens ? null : words["Event.AtLatest", Dates(window.Closes, words)]);
        }
        else if (window.State is not WindowState.Withdrawn)
        {
            Line(text, words["Event.Opens", Dates(window.Opens, words)]);
            Line(text, words["Event.Closes", Dates(window.Closes, words)]);
        }
        if (window.State is not (WindowState.Withdrawn or WindowState.Missed))
            List(text, words["Event.Aftercare"], window.Aftercare);
        if (window.State is WindowState.Forecast or WindowState.Open or WindowState.Held)
            Line(text, Effort(window, words));
        return PlainText.Lines(text.ToString());
    }

    /// <summary>What a planned visit says: when and how long, then the work as its window tells it.</summary>
    public static string Description(DatedVisit dated)
    {
        var (window, visit) = (dated.Window.Body.Window, dated.Visit);
        var text = new StringBuilder();
        Line(text, visit.Visits == 1 ? $"Planned for your free time: about {visit.Minutes} minutes." : $"Planned for your free time: visit {visit.Visit} of {visit.Visits}, about {visit.Minutes} minutes.");
        Line(text, Hands.Needed(window.People) > 1 ? $"It takes {window.People} people." : null);
        Line(text, Standing(window, OwnerWords.English));
        List(text, "What to do:", window.How);
        Line(text, window.Amount.Length > 0 ? "How much: " + window.Amount : null);
        List(text, "Beware:", window.Cautions);
        Line(text, "Window closes: " + Dates(window.Closes));
        List(text, "Afterwards:", window.Aftercare);
        return PlainText.Lines(text.ToString());
    }

    private static string Standing(WorkWindow window, OwnerWords words) => window.State switch
    {
        WindowState.Forecast => words["Event.IsForecast"],
        WindowState.Open => words["Event.IsOpen"],
        WindowState.Held => Held(window, words),
        WindowState.Done => words["Event.IsDone"],
        WindowState.Missed => words["Event.IsMissed"],
        WindowState.Withdrawn => words["Event.IsWithdrawn"],
        _ => throw new InvalidOperationException($"No text for a window that is {window.State}.")
    };

    // Looks and small duties that earlier work has promised.
    private static string PromiseStanding(WorkWindow window, OwnerWords words) => window.State switch
    {
        WindowState.Forecast => words["Event.LookForecast"],
        WindowState.Open => words["Event.LookOpen"],
        WindowState.Withdrawn => words["Event.LookWithdrawn"],
        _ => throw new InvalidOperationException($"A promise is never {window.State}.")
    };

    private static string Why(WindowState state, OwnerWords words) => state switch
    {
        WindowState.Forecast => words["Event.WhyThen"],
        WindowState.Open or WindowState.Held => words["Event.WhyNow"],
        _ => words["Event.Why"]
    };

    internal static string Held(WorkWindow window, OwnerWords? said = null)
    {
        var words = said ?? OwnerWords.English;
        var until = window.HeldUntil is { } day ? words["Event.HeldUntil", words.DayAndYear(day)] : words["Event.Held"];
        var cause = window.Reasons.FirstOrDefault(reason => reason.Id == window.Hold)?.Text ?? window.Hold?.Replace('-', ' ');
        return cause is null ? words["Event.Wait", until] : words["Event.WaitFor", until, cause.TrimEnd('.')];
    }

    internal static string Dates(DateBand band, OwnerWords? said = null)
    {
        var words = said ?? OwnerWords.English;
        if (band.Likely is not { } likely)
            return words["Event.NotInSight"];
        if (band.Early == likely && band.Late == likely)
            return words.DayAndYear(likely);
        var early = band.Early is { } first ? words.DayAndYear(first) : words["Event.Unknown"];
        var late = band.Late is { } last ? words.DayAndYear(last) : words["Event.PerhapsNot"];
        return words["Event.Band", words.DayAndYear(likely), early, late];
    }

    private static string? Effort(WorkWindow window, OwnerWords words)
    {
        var parts = new List<string>();
        if (window.Minutes is { } minutes)
            parts.Add(words["Event.Minutes", minutes]);
        if (window.Sessions is { } sessions)
            parts.Add(sessions.Low < sessions.High ? words["Event.SessionsSpan", sessions.Low, sessions.High] : sessions.High == 1 ? words["Event.Session"] : words["Event.Sessions", sessions.High]);
        if (window.People is { } people)
            parts.Add(Hands.Needed(people) > 1 ? words["Event.People", people] : people);
        return parts.Count == 0 ? null : words["Event.Time", string.Join(", ", parts)];
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
