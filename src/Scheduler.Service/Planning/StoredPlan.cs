using NodaTime;
using Scheduler.Domain.Planning;

namespace Scheduler.Service.Planning;

/// <summary>A visit as it was last planned. The sequence grows with each new date; a visit that has lost its date keeps it, so that a later one goes on counting.</summary>
/// <param name="Visit">From 1 to <paramref name="Visits"/>, within one window.</param>
/// <param name="Date">Null: it has no place any more.</param>
/// <param name="Order">Place within its day, from 0.</param>
public sealed record PlannedVisit(
    Guid WindowId, int Visit, int Visits, LocalDate? Date, int Order, int Minutes, int Sequence, Instant ChangedAt)
{
    public string Id => VisitFinder.IdOf(WindowId, Visit);

    /// <summary>How many logged sessions the minutes are learned from; null: they are the technique's own.</summary>
    public int? LearnedFrom { get; init; }
}

/// <summary>A visit without a place.</summary>
/// <param name="Cause">Id of what stands in its way.</param>
/// <param name="Reason">The same as a sentence, with what would make room.</param>
/// <param name="Date">The day that comes nearest to having room.</param>
/// <param name="MinutesMissing">How much longer that day, or where there is none any day from <paramref name="From"/> to <paramref name="To"/>, would have to be.</param>
public sealed record UnplacedVisit(
    Guid WindowId, int Visit, int Visits, string Cause, string Reason, LocalDate From, LocalDate To, LocalDate? Date, int MinutesMissing);

/// <summary>The owner's days as planned.</summary>
public sealed record StoredPlan(LocalDate MadeFor, LocalDate To, IReadOnlyList<PlannedVisit> Visits, IReadOnlyList<UnplacedVisit> Unplaced)
{
    public static readonly StoredPlan Empty = new(LocalDate.MinIsoValue, LocalDate.MinIsoValue, [], []);
}
