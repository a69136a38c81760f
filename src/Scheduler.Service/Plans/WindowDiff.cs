using NodaTime;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Plans;

/// <summary>
/// Compares what is announced with what is now found and says which rows change. Pure: the same inputs give the same
/// rows. A window keeps its id when it moves; one that is no longer advised is withdrawn with the reason, never dropped.
/// Dates move as <see cref="CalmDates"/> says.
/// </summary>
public static class WindowDiff
{
    /// <summary>Windows of earlier growth years stay as they ended; nothing is announced for the first time once it is over.</summary>
    public static IReadOnlyList<StoredWindow> Changes(
        Guid gardenId,
        string gardenName,
        IReadOnlyList<StoredWindow> announced,
        IReadOnlyList<TreeWindows> found,
        CalmDates calm,
        LocalDate today,
        Instant now)
    {
        ArgumentNullException.ThrowIfNull(calm);
        var byKey = announced.ToDictionary(window => window.Key);
        var changes = new List<StoredWindow>();
        foreach (var tree in found)
        {
            foreach (var window in tree.Set.Windows)
            {
                if (!byKey.Remove(window.Key, out var old))
                {
                    if (!IsOver(window, today))
                        changes.Add(new StoredWindow(Guid.NewGuid(), gardenId, new WindowBody(window, tree.TreeName, gardenName), 0, Stamp.After(null, now), null));
                }
                else if (Moved(old, new WindowBody(calm.Announce(old.Body.Window, window, today), tree.TreeName, gardenName), now) is { } moved)
                {
                    changes.Add(moved);
                }
            }
        }
        var treesLeft = found.ToDictionary(tree => tree.TreeId);
        foreach (var old in byKey.Values.Where(old => IsPending(old.State)))
            changes.Add(Withdrawn(old, treesLeft.GetValueOrDefault(old.Key.TreeId), now));
        return changes;
    }

    /// <summary>Takes back everything that is still to come, for one reason. What has ended stays as it ended.</summary>
    public static IReadOnlyList<StoredWindow> WithdrawAll(IReadOnlyList<StoredWindow> announced, Reason reason, Instant now) =>
        [.. announced.Where(window => IsPending(window.State)).Select(window => Withdrawn(window, [reason], now))];

    private static StoredWindow? Moved(StoredWindow old, WindowBody body, Instant now)
    {
        if (Json.Write(old.Body) == Json.Write(body))
            return null;
        var shown = old.Body.Window;
        var dated = shown.Opens.Likely != body.Window.Opens.Likely
            || shown.Closes.Likely != body.Window.Closes.Likely
            || Status(shown.State) != Status(body.Window.State);
        return old with { Body = body, Sequence = old.Sequence + (dated ? 1 : 0), ChangedAt = Stamp.After(old.ChangedAt, now), WithdrawnAt = null };
    }

    private static StoredWindow Withdrawn(StoredWindow old, TreeWindows? tree, Instant now)
    {
        var refusal = tree?.Set.Refusals.FirstOrDefault(refusal =>
            refusal.Technique == old.Key.Technique && refusal.Year == old.Key.Year
            && (refusal.Mode == old.Key.Mode || refusal.Mode is null && !PromiseWindows.IsPromise(old.Key)));
        return Withdrawn(old, refusal?.Reasons ?? [Gone(old.Key, tree)], now);
    }

    private static StoredWindow Withdrawn(StoredWindow old, IReadOnlyList<Reason> reasons, Instant now) =>
        old with
        {
            Body = old.Body with { Window = old.Body.Window with { State = WindowState.Withdrawn, Hold = null, HeldUntil = null, Reasons = reasons } },
            Sequence = old.Sequence + 1,
            ChangedAt = Stamp.After(old.ChangedAt, now),
            WithdrawnAt = now
        };

    private static Reason Gone(WindowKey key, TreeWindows? tree)
    {
        if (tree is null)
            return new Reason("tree-gone", "The tree is no longer in the garden.");
        return PromiseWindows.IsPromise(key)
            ? new Reason("work-undone", "The work it came of was taken out of the log, or its season is over.")
            : new Reason("not-expected", "It is no longer expected this season.");
    }

    private static bool IsOver(WorkWindow window, LocalDate today) =>
        window.State is WindowState.Missed or WindowState.Done || (window.Closes.Late ?? window.Closes.Likely) < today;

    private static bool IsPending(WindowState state) => state is WindowState.Forecast or WindowState.Open or WindowState.Held;

    // What a calendar calls the status: a held window stays as firm as an open one.
    private static int Status(WindowState state) => state switch
    {
        WindowState.Forecast => 0,
        WindowState.Withdrawn => 2,
        _ => 1
    };
}

/// <summary>The windows found for one tree.</summary>
public sealed record TreeWindows(Guid TreeId, string TreeName, WindowSet Set);
