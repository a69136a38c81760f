using NodaTime;
using Scheduler.Domain.Planning;
using Scheduler.Service.Catalog;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Planning;

/// <summary>
/// Fits the work of a garden's announced windows into the owner's free days and keeps the result, so that tomorrow's plan changes
/// today's only where it must.
/// </summary>
public sealed class WorkPlanner(WindowStore windows, PlanStore plans, CatalogContent catalog, IClock clock)
{
    public async Task<StoredPlan> MakeAsync(GardenPicture picture, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var garden = picture.Inputs.Garden;
        var before = await plans.FindAsync(garden.Id, cancel);
        var now = clock.GetCurrentInstant();
        var made = Made(picture, await windows.OfGardenAsync(garden.Id, cancel), before ?? StoredPlan.Empty, now);
        if (before is null || Json.Write(before) != Json.Write(made))
            await plans.SaveAsync(garden.Id, made, now, cancel);
        return made;
    }

    private StoredPlan Made(GardenPicture picture, IReadOnlyList<StoredWindow> announced, StoredPlan before, Instant now)
    {
        var rules = catalog.Craft.Planning;
        var free = new FreeTime(
            Json.Read<IReadOnlyList<WorkDay>>(picture.Inputs.Garden.WorkDays), Json.Read<IReadOnlyList<DayException>>(picture.Inputs.Garden.Exceptions));
        var days = Enumerable.Range(0, (int)rules.HorizonDays.Value).Select(picture.Today.PlusDays)
            .Select(date => new PlanDay(date, free.MinutesOn(date), free.PeopleOn(date))).ToList();
        var standing = before.Visits.Where(visit => visit.Date >= picture.Today && visit.Date <= days[^1].Date).ToDictionary(visit => visit.Id, visit => visit.Date!.Value);
        var visits = Visits(picture, announced, new VisitFinder(catalog.Craft, days, free.IsUsual, new LearnedMinutes(rules, picture.Trees), standing));
        if (free.IsUnknown)
            return new StoredPlan(picture.Today, days[^1].Date, Kept(before, [], now), [.. visits.Where(IsLast).Select(UnplacedText.WithoutWorkDays)]);

        var places = standing.ToDictionary(visit => visit.Key, visit => Period.DaysBetween(picture.Today, visit.Value));
        var outcome = DayPlanner.Plan([.. visits.Select(visit => visit.Job)], [.. days.Select(day => day.Minutes)], places);
        var order = new DayOrder(rules);
        var placed = visits.Where(visit => outcome.DayOf.ContainsKey(visit.Job.Id))
            .GroupBy(visit => days[outcome.DayOf[visit.Job.Id]].Date).OrderBy(day => day.Key)
            .SelectMany(day => order.Of(day.Key, day).Select((visit, place) =>
                new PlannedVisit(visit.WindowId, visit.Visit, visit.Visits, day.Key, place, visit.Job.Minutes, 0, now) { LearnedFrom = visit.LearnedFrom }))
            .ToList();
        var text = new UnplacedText(days, catalog.Craft.Holds);
        var byId = visits.ToDictionary(visit => visit.Job.Id);
        return new StoredPlan(
            picture.Today, days[^1].Date, Kept(before, placed, now),
            [.. outcome.Unplaced.Select(one => (Visit: byId[one.Job.Id], Why: one)).Where(one => IsLast(one.Visit)).Select(one => text.Of(one.Visit, one.Why))]);
    }

    // What a later plan can still place is not given up yet.
    private static bool IsLast(WorkVisit visit) => !visit.ClosesLater;

    private List<WorkVisit> Visits(GardenPicture picture, IReadOnlyList<StoredWindow> announced, VisitFinder finder)
    {
        var trees = picture.Trees.ToDictionary(tree => tree.Tree.Id);
        var holds = new Dictionary<Guid, HoldDays>();
        var visits = new List<WorkVisit>();
        foreach (var stored in announced.Where(window => trees.ContainsKey(window.Key.TreeId)).OrderBy(window => window.Id))
        {
            var tree = trees[stored.Key.TreeId];
            if (!holds.TryGetValue(tree.Tree.Id, out var of))
                holds[tree.Tree.Id] = of = new HoldDays(catalog.Craft, tree, picture.Garden);
            visits.AddRange(finder.Of(stored.Id, stored.Body.Window, tree, of));
        }
        return visits;
    }

    // Sequence and stamp move with the date and the minutes alone; what lost its date is remembered for as long as anything of it may come back.
    private static List<PlannedVisit> Kept(StoredPlan before, List<PlannedVisit> placed, Instant now)
    {
        var old = before.Visits.ToDictionary(visit => visit.Id);
        var all = new List<PlannedVisit>();
        foreach (var visit in placed)
        {
            old.Remove(visit.Id, out var was);
            all.Add(was is null ? visit
                : was.Date == visit.Date && was.Minutes == visit.Minutes ? visit with { Sequence = was.Sequence, ChangedAt = was.ChangedAt }
                : visit with { Sequence = was.Sequence + 1, ChangedAt = Stamp.After(was.ChangedAt, now) });
        }
        foreach (var gone in old.Values.Where(visit => visit.ChangedAt > now - Remembered))
            all.Add(gone.Date is null ? gone : gone with { Date = null, Order = 0, Sequence = gone.Sequence + 1, ChangedAt = Stamp.After(gone.ChangedAt, now) });
        return all;
    }

    private static readonly Duration Remembered = Duration.FromDays(400);
}
