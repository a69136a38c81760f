using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Trees;

/// <summary>A promise as the API tells it.</summary>
/// <param name="Technique">The technique that keeps it; null: a look.</param>
/// <param name="When">The same due point as a condition on growth.</param>
/// <param name="Why">Names the work it follows from.</param>
/// <param name="Due">Early, likely and late date, all null while nobody can say; equal once nothing can move them.</param>
public sealed record PromiseAnswer(
    Guid Id, Guid TreeId, string TreeName, Guid WorkId, LocalDate WorkDate, CrownZone? CrownZone, string? Branch, FollowUpKind Kind,
    string? Technique, string What, string Text, string Why, Trigger When, PromiseDates Due, PromiseState State, LocalDate? DoneOn)
{
    public static PromiseAnswer Of(Promise promise, Tree tree)
    {
        ArgumentNullException.ThrowIfNull(promise);
        ArgumentNullException.ThrowIfNull(tree);
        return new PromiseAnswer(
            promise.Id, promise.TreeId, tree.Name, promise.Work.Id, promise.Work.Date, promise.CrownZone, promise.Branch, promise.Kind,
            promise.Technique, promise.What, promise.Text, promise.Because, promise.When, PromiseDates.Of(promise.Due), promise.State, promise.DoneOn);
    }
}

/// <summary>10th percentile of falling due, the likely day, and the 90th percentile of the day by which it is due.</summary>
public sealed record PromiseDates(LocalDate? Early, LocalDate? Likely, LocalDate? Late)
{
    public static PromiseDates Of(DateBand due) => new(due.Early, due.Likely, due.Late);
}
