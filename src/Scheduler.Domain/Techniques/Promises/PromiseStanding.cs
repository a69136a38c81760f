using NodaTime;
using Scheduler.Domain.Techniques.Care;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// How a promise stands today: kept by later work or by a look that answers it, dropped by the owner or by time, or still
/// to come, due, overdue. A look, or a piece of care, that is long past is told no more. Later work that promises the same thing for the same part takes the earlier promise over.
/// </summary>
internal sealed class PromiseStanding(TreeYear year, TreeFacts tree, IReadOnlyList<WorkRecord> log, IReadOnlyList<Promise> all)
{
    private readonly Lazy<List<Judged>> _season = new(() => SeasonRun.Today(year).Season);

    public Promise Stand(Promise promise)
    {
        if (tree.DismissedPromises.Contains(promise.Id))
            return promise with { State = PromiseState.Dropped };
        if (promise.Kind != FollowUpKind.Rest && KeptOn(promise) is { } kept)
            return promise with { State = PromiseState.Done, DoneOn = kept };
        return promise with { State = IsTakenOver(promise) || IsNotNeeded(promise) || IsBarred(promise) ? PromiseState.Dropped : OnDate(promise) };
    }

    // Work that the tree must not have this season is not promised for it, though an earlier answer did so.
    private bool IsBarred(Promise promise)
    {
        if (promise is not { Kind: FollowUpKind.Work, Technique: { } id } || promise.Opens.Likely is { } opens && opens >= year.Year.Next.Turn
            || year.Craft.Find(id) is not { } technique || CareAdvice.IsCare(technique))
            return false;
        var modes = _season.Value.FindAll(judged => ReferenceEquals(judged.Judgement.Technique, technique));
        var named = modes.FindAll(judged => judged.Judgement.Mode.Id == promise.What);
        return (named.Count > 0 ? named : modes) is { Count: > 0 } asked
            && asked.TrueForAll(judged => judged.Parts.All(part => part.Verdict == Verdict.NotAllowed && part.BarredUntil is null or SeasonTrigger));
    }

    private PromiseState OnDate(Promise promise)
    {
        var today = year.Today;
        if (promise.Opens.Likely is not { } opens || opens > today)
            return PromiseState.Waiting;
        if (promise.Due.Late is not { } late || late >= today)
            return PromiseState.Due;
        if (promise.Kind == FollowUpKind.Rest)
            return PromiseState.Done;
        return (promise.Kind == FollowUpKind.Look || IsCare(promise)) && Period.DaysBetween(late, today) > year.Thresholds.LookLapsesDays.Value
            ? PromiseState.Dropped
            : PromiseState.Overdue;
    }

    private bool IsCare(Promise promise) => promise.Technique is { } id && year.Craft.Find(id) is { } technique && CareAdvice.IsCare(technique);

    private LocalDate? KeptOn(Promise promise)
    {
        LocalDate? work = null;
        if (promise.Technique is { } technique && promise.Kind == FollowUpKind.Work)
        {
            var isMode = year.Craft.Find(technique)?.Modes.Any(mode => mode.Id == promise.What) == true;
            work = log.Where(done => done.Technique == technique && done.Date > promise.Work.Date && (!isMode || WorkLog.Fits(done, $"{technique}/{promise.What}"))
                && Touches(done.CrownZone, done.Branch, promise.Work)).Select(done => (LocalDate?)done.Date).FirstOrDefault();
        }
        if (promise.Kind == FollowUpKind.Work && promise.AnsweredBy.Count == 0)
            return work;
        // A look before its time tells nothing of what is to be looked at.
        var looked = tree.Observations.Where(seen => seen.Date > promise.Work.Date && seen.Date <= year.Today && seen.Date >= promise.Opens.Early
            && AnswerFields.Tells(seen, promise.AnsweredBy) && Touches(seen.CrownZone, seen.Branch, promise.Work)).Min(seen => (LocalDate?)seen.Date);
        return work is null || looked < work ? looked : work;
    }

    private bool IsTakenOver(Promise promise) => all.Any(later => later.What == promise.What && later.Technique == promise.Technique
        && later.Work.Date > promise.Work.Date && Covers(later.Work, promise.Work));

    // It waited for a density, which was scored in its time and found less.
    private bool IsNotNeeded(Promise promise)
    {
        var parts = promise.When is AllTrigger several ? several.Parts : [promise.When];
        return parts.OfType<DensityTrigger>().FirstOrDefault() is { } asked
            && tree.Observations.Where(seen => seen.Density is not null && seen.Date > promise.Work.Date && seen.Date <= year.Today && seen.Date >= promise.Opens.Early
                && Touches(seen.CrownZone, seen.Branch, promise.Work)).MaxBy(seen => seen.Date) is { } scored && scored.Density < asked.AtLeast;
    }

    // Later work on the whole tree covers each part of it; work on a part covers that part.
    private static bool Covers(WorkRecord later, WorkRecord earlier) =>
        later.Branch is null && later.CrownZone is null || later.Branch == earlier.Branch && later.CrownZone == earlier.CrownZone;

    // What was done or seen on the whole tree, on the part itself, or on any part of a tree that was worked whole.
    private static bool Touches(CrownZone? zone, string? branch, WorkRecord work)
    {
        if (work.Branch is { } own)
            return branch == own || branch is null && (zone is null || zone == work.CrownZone);
        return work.CrownZone is null || zone is null || zone == work.CrownZone;
    }
}
