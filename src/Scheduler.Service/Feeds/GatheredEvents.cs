using System.Globalization;
using Ical.Net;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>
/// One event for all trees of a garden whose windows of one technique overlap, or that the plan gives one technique on the same day.
/// Trees come and go; the event stays the one with which it has most of them in common.
/// </summary>
internal static class GatheredEvents
{
    /// <summary>Windows that are called off stand in no event; the others stand where they stood, however old, so that age alone changes no text.</summary>
    public static IEnumerable<EventDraft> OfWindows(FeedLook look, IEnumerable<StoredWindow> windows, IReadOnlyDictionary<string, ToldEvent> told, LocalDate day)
    {
        var clusters = windows.Where(window => window.State is not WindowState.Withdrawn && window.Body.Window.Opens.IsExpected)
            .GroupBy(GroupOf).OrderBy(group => group.Key.ToString(), StringComparer.Ordinal).SelectMany(Overlapping).Where(cluster => FeedSelection.IsNear(cluster.First, cluster.Last, day));
        return Named(clusters, cluster => [.. cluster.Windows.Select(window => $"{window.Id:D}")], EventKind.Windows, told)
            .Select(named => Draft(look, named.Id, named.Cluster));
    }

    public static IEnumerable<EventDraft> OfVisits(FeedLook look, IEnumerable<DatedVisit> visits, IReadOnlyDictionary<string, ToldEvent> told)
    {
        var days = visits.GroupBy(visit => (GroupOf(visit.Window), visit.Date)).OrderBy(group => group.Key.ToString(), StringComparer.Ordinal)
            .Select(day => day.OrderBy(visit => visit.Visit.Order).ThenBy(IdOf, StringComparer.Ordinal).ToList());
        return Named(days, visits => [.. visits.Select(IdOf)], EventKind.Visits, told).Select(named => Draft(look, named.Id, named.Cluster));
    }

    private static string IdOf(DatedVisit visit) => $"{visit.Window.Id:D}-visit-{visit.Visit.Visit}";

    private static (Guid Garden, string Technique, string Mode, int Year) GroupOf(StoredWindow window)
    {
        var key = window.Key;
        // A promise has the work that it comes of in its mode; what is promised stands before it.
        return (window.GardenId, key.Technique, PromiseWindows.IsPromise(key) ? key.Mode?.Split('/')[0] + "/" : key.Mode ?? "", key.Year);
    }

    private static IEnumerable<Cluster> Overlapping(IEnumerable<StoredWindow> windows)
    {
        Cluster? open = null;
        foreach (var window in windows.OrderBy(window => window.Body.Window.Opens.Likely).ThenBy(window => window.Id))
        {
            var opens = window.Body.Window.Opens.Likely!.Value;
            var last = FeedSelection.LastDay(window.Body.Window, opens);
            if (open is not null && opens <= open.Last)
            {
                open = open with { Last = LocalDate.Max(open.Last, last), Windows = [.. open.Windows, window] };
                continue;
            }
            if (open is not null)
                yield return open;
            open = new Cluster(opens, last, [window]);
        }
        if (open is not null)
            yield return open;
    }

    // Each takes over the event with which it has most in common, the one that still stands first.
    private static IEnumerable<(string Id, T Cluster)> Named<T>(
        IEnumerable<T> clusters, Func<T, IReadOnlyList<string>> membersOf, EventKind kind, IReadOnlyDictionary<string, ToldEvent> told)
    {
        var all = clusters.Select(cluster => (Cluster: cluster, Members: membersOf(cluster))).ToList();
        var known = told.Values.Where(was => was.Event.Kind == kind).ToList();
        var pairs =
            from was in known
            from index in Enumerable.Range(0, all.Count)
            let common = all[index].Members.Intersect(was.Event.Members, StringComparer.Ordinal).Count()
            where common > 0
            orderby common descending, was.CancelledAt is not null, was.Event.Id, index
            select (was.Event.Id, Index: index);
        var names = new Dictionary<int, string>();
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (id, index) in pairs)
        {
            if (!names.ContainsKey(index) && taken.Add(id))
                names[index] = id;
        }
        taken.UnionWith(told.Keys);
        for (var index = 0; index < all.Count; index++)
        {
            if (!names.TryGetValue(index, out var id))
                id = NewIds(all[index].Members).First(taken.Add);
            yield return (id, all[index].Cluster);
        }
    }

    private static IEnumerable<string> NewIds(IReadOnlyList<string> members) =>
        members.Select(member => member + "-gathered")
            .Concat(Enumerable.Range(2, int.MaxValue - 2).Select(number => string.Create(CultureInfo.InvariantCulture, $"{members[0]}-gathered-{number}")));

    private static EventDraft Draft(FeedLook look, string id, Cluster cluster)
    {
        var (windows, first) = (cluster.Windows, cluster.Windows[0]);
        var heading = GatheredText.Heading(windows);
        var made = new FeedEvent(
            id, EventKind.Windows, first.GardenId, look.SpanOf(first.GardenId, cluster.First, cluster.Last), Status(windows),
            heading, GatheredText.Summary(windows), GatheredText.Description(windows), PlainText.Line(first.Body.GardenName), first.Key.Technique,
            windows.Any(window => EachEvents.IsPending(window.State)) ? look.Alarms : [], [.. windows.Select(window => $"{window.Id:D}")]);
        return new EventDraft(made, 0, Instant.Max(windows.Max(window => window.ChangedAt), look.ChangedAt));
    }

    private static EventDraft Draft(FeedLook look, string id, List<DatedVisit> visits)
    {
        var (first, windows) = (visits[0], visits.Select(visit => visit.Window).ToList());
        var minutes = visits.Sum(visit => visit.Visit.Minutes);
        var heading = PlainText.Line($"{GatheredText.Heading(windows)} ({minutes} min)");
        var made = new FeedEvent(
            id, EventKind.Visits, first.Window.GardenId, look.SpanOf(first.Window.GardenId, first.Date, minutes), Status(windows), heading, heading,
            GatheredText.Description(visits), PlainText.Line(first.Window.Body.GardenName), first.Window.Key.Technique, look.Alarms, [.. visits.Select(IdOf)]);
        return new EventDraft(made, 0, Instant.Max(visits.Max(visit => Instant.Max(visit.Visit.ChangedAt, visit.Window.ChangedAt)), look.ChangedAt));
    }

    // Tentative as long as it is a forecast for every tree that still waits.
    private static string Status(IReadOnlyList<StoredWindow> windows) =>
        windows.Where(window => EachEvents.IsPending(window.State)).ToList() is { Count: > 0 } pending && pending.TrueForAll(window => window.State is WindowState.Forecast)
            ? EventStatus.Tentative
            : EventStatus.Confirmed;

    /// <summary>Windows that overlap, directly or by way of others, in the order of their opening.</summary>
    private sealed record Cluster(LocalDate First, LocalDate Last, IReadOnlyList<StoredWindow> Windows);
}
