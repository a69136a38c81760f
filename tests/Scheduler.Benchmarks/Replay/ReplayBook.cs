using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Benchmarks.Replay;

/// <summary>
/// What a replayed season did to the dates in a calendar. Care that follows from the forecast (frost, heat, water) has no date to keep
/// and is left out.
/// </summary>
internal sealed class ReplayBook
{
    private const int JudgedAheadDays = 14;
    private const int NoticeDays = 2;
    private static readonly string[] Care = ["frost-protection", "heat-shade", "watering"];

    private readonly Dictionary<WindowKey, List<Entry>> _courses = [];

    private sealed record Entry(LocalDate Date, WorkWindow? Announced, int Sequence, Instant ChangedAt, WorkWindow? Found);

    public void Add(ReplayedDay day)
    {
        var found = day.Found.SelectMany(tree => tree.Set.Windows).ToDictionary(window => window.Key);
        var announced = day.Announced.ToDictionary(window => window.Key);
        foreach (var key in found.Keys.Union(announced.Keys).Where(key => !Care.Contains(key.Technique)))
        {
            if (!_courses.TryGetValue(key, out var course))
                _courses[key] = course = [];
            var shown = announced.GetValueOrDefault(key);
            course.Add(new Entry(day.Date, shown?.Body.Window, shown?.Sequence ?? -1, shown?.ChangedAt ?? default, found.GetValueOrDefault(key)));
        }
    }

    public ReplayFigures Figures(int year)
    {
        var shown = _courses.Where(course => course.Value.Exists(entry => entry.Announced is not null)).ToList();
        var opened = shown.Select(course => Opening(course.Key, course.Value)).OfType<OpenedWindow>().ToList();
        return new ReplayFigures(
            year, shown.Count, shown.Sum(course => Moves(course.Value, entry => entry.Announced)), shown.Sum(course => Moves(course.Value, entry => entry.Found)),
            shown.Sum(course => Texts(course.Value)), shown.Sum(course => Turns(course.Value)), opened);
    }

    // Days on which what a calendar shows as start or end moved, while the window was still to come or open.
    private static int Moves(List<Entry> course, Func<Entry, WorkWindow?> window)
    {
        var (moves, last) = (0, default(WorkWindow));
        foreach (var entry in course)
        {
            var now = window(entry);
            if (now is null or { State: WindowState.Withdrawn })
                continue;
            if (last is not null && (now.Opens.Likely != last.Opens.Likely || now.Closes.Likely != last.Closes.Likely))
                moves++;
            last = now;
        }
        return moves;
    }

    private static int Texts(List<Entry> course) => course.Zip(course.Skip(1)).Count(pair =>
        pair.First.Announced is not null && pair.Second.ChangedAt != pair.First.ChangedAt && pair.Second.Sequence == pair.First.Sequence);

    // Called off or brought back.
    private static int Turns(List<Entry> course) => course.Zip(course.Skip(1)).Count(pair => pair.First.Announced is not null
        && pair.First.Announced.State == WindowState.Withdrawn != (pair.Second.Announced?.State == WindowState.Withdrawn));

    private static OpenedWindow? Opening(WindowKey key, List<Entry> course)
    {
        var at = course.FindIndex(entry => entry.Announced is { State: WindowState.Open or WindowState.Held });
        // Open from the first day on: nothing was ever announced ahead.
        if (at < JudgedAheadDays)
            return at > 0 && course[0].Announced is null ? new OpenedWindow(key, course[at].Date, null, null, Notice(course, at), HasTurned(course, at)) : null;
        // With the weather known: what the rules said last while or after it was open.
        var hindsight = course.Skip(at).TakeWhile(entry => entry.Found is not null)
            .Where(entry => entry.Found!.State is not WindowState.Forecast).Select(entry => entry.Found!.Opens.Likely).LastOrDefault() ?? course[at].Date;
        var judged = course.Find(entry => entry.Date == hindsight.PlusDays(-JudgedAheadDays));
        return new OpenedWindow(key, course[at].Date, hindsight, judged?.Announced is { State: not WindowState.Withdrawn } before ? Inside(before, hindsight) : null,
            Notice(course, at), HasTurned(course, at));
    }

    private static bool Inside(WorkWindow before, LocalDate date) => before.Opens.Early <= date && (before.Opens.Late is not { } late || date <= late);

    // Days before the opening since when the calendar has shown this very day, or an earlier one.
    private static int Notice(List<Entry> course, int at)
    {
        var opened = course[at].Announced!.Opens.Likely!.Value;
        var first = at;
        while (first > 0 && course[first - 1].Announced is { State: not WindowState.Withdrawn } before && before.Opens.Likely <= opened)
            first--;
        return Period.DaysBetween(course[first].Date, course[at].Date);
    }

    // Whether what the rules found themselves moved forward within the notice.
    private static bool HasTurned(List<Entry> course, int at)
    {
        var opened = course[at].Announced!.Opens.Likely!.Value;
        return course.Take(at).TakeLast(NoticeDays).Any(entry => entry.Found?.Opens.Likely is not { } likely || likely > opened);
    }
}

/// <summary>A window that opened in the season.</summary>
/// <param name="Hindsight">When it opened, seen with the weather known.</param>
/// <param name="Inside">Whether that lay between early and late as announced two weeks before; null: it was not announced then.</param>
/// <param name="NoticeDays">How many days before it opened the calendar showed that day.</param>
/// <param name="HasTurned">The weather of the last two days moved what the rules find.</param>
internal sealed record OpenedWindow(WindowKey Key, LocalDate Opened, LocalDate? Hindsight, bool? Inside, int NoticeDays, bool HasTurned);

/// <summary>The figures of one season.</summary>
/// <param name="Moves">Days on which an event's start or end moved, over all windows; <paramref name="FoundMoves"/>: the same without the rule.</param>
/// <param name="Texts">Days on which only the text of an event changed.</param>
/// <param name="Turns">Windows called off or brought back.</param>
internal sealed record ReplayFigures(int Year, int Windows, int Moves, int FoundMoves, int Texts, int Turns, IReadOnlyList<OpenedWindow> Opened)
{
    public double MovesPerWindow => (double)Moves / Windows;

    public double FoundMovesPerWindow => (double)FoundMoves / Windows;

    public int Judged => Opened.Count(window => window.Inside is not null);

    public double Inside => (double)Opened.Count(window => window.Inside == true) / Judged;

    /// <summary>Windows that opened with less than two days' notice.</summary>
    public IEnumerable<OpenedWindow> Short => Opened.Where(window => window.NoticeDays < 2);

    public int ShortThoughCalm => Short.Count(window => !window.HasTurned);
}
