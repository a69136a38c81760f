using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// Promises as windows of their own, so that calendars show them: looks, and work for which the tree has no window. A
/// promise that is kept or let go is told as a refusal, so that what was announced is called off with its reason.
/// </summary>
public static class PromiseWindows
{
    /// <summary>Windows that stand for a promise count as no pass of any technique.</summary>
    public const int Pass = 0;

    public static bool IsPromise(WindowKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return key.Pass == Pass;
    }

    public static WindowSet With(WindowSet set, Craft craft, IReadOnlyList<Promise> promises, Hemisphere hemisphere)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(craft);
        var shown = promises.Where(promise => HasEvent(promise, craft)).ToList();
        return new WindowSet(
            [.. set.Windows, .. shown.Where(IsAhead).Select(promise => Window(promise, hemisphere))],
            [.. set.Refusals, .. shown.Where(promise => !IsAhead(promise)).Select(promise => Refusal(promise, hemisphere))]);
    }

    private static bool HasEvent(Promise promise, Craft craft) => promise.Kind switch
    {
        FollowUpKind.Look => true,
        FollowUpKind.Work => craft.Find(promise.Technique!)?.Modes.Any(mode => mode.Windows.Count > 0) != true,
        _ => false
    };

    private static bool IsAhead(Promise promise) =>
        promise.State is PromiseState.Waiting or PromiseState.Due or PromiseState.Overdue && promise.Opens.IsExpected;

    private static WindowKey Key(Promise promise, Hemisphere hemisphere) => new(
        promise.TreeId, promise.Technique ?? promise.Work.Technique, $"{promise.What}/{promise.Id:N}",
        GrowthYear.Of(promise.Work.Date, hemisphere).Year, Pass);

    private static WorkWindow Window(Promise promise, Hemisphere hemisphere) => new()
    {
        Key = Key(promise, hemisphere),
        Opens = promise.Opens,
        Closes = promise.Closes,
        State = promise.State == PromiseState.Waiting ? WindowState.Forecast : WindowState.Open,
        Title = promise.Text.TrimEnd('.'),
        Reasons = [new Reason("promised", promise.Because)],
        Amount = ""
    };

    private static Refusal Refusal(Promise promise, Hemisphere hemisphere)
    {
        var key = Key(promise, hemisphere);
        var reason = promise switch
        {
            { DoneOn: { } day } => new Reason("done-this-window", $"It was done on {day.ToString("d MMMM uuuu", System.Globalization.CultureInfo.InvariantCulture)}."),
            { State: PromiseState.Dropped } => new Reason("let-go", "It was let go, or later work or time has overtaken it."),
            _ => new Reason("not-expected", "It is no longer expected this season.")
        };
        return new Refusal(key.Technique, key.Mode, key.Year, Verdict.Leave, [reason]);
    }
}
