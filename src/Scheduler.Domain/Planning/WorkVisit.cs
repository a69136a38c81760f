using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Planning;

/// <summary>A day and how long the owner has for trees on it [min]; 0: not free.</summary>
/// <param name="People">How many can lend a hand that day; null: nobody said.</param>
public sealed record PlanDay(LocalDate Date, int Minutes, int? People = null);

/// <summary>One visit that an announced window asks for.</summary>
/// <param name="Visit">From 1 to <paramref name="Visits"/>.</param>
/// <param name="From">First day on which the visit belongs.</param>
/// <param name="To">Last such day; the last planned day where the window closes later.</param>
/// <param name="HoldsOn">Free days in between that the weather bars, with the id of the hold.</param>
/// <param name="ClosesLater">The window goes on after the last planned day, so a later plan can still place it.</param>
public sealed record WorkVisit(
    Guid WindowId, WorkWindow Window, int Visit, int Visits, LocalDate From, LocalDate To, PlanJob Job,
    IReadOnlyDictionary<LocalDate, string> HoldsOn, bool ClosesLater)
{
    /// <summary>How many logged sessions its minutes are learned from; null: they are the technique's own.</summary>
    public int? LearnedFrom { get; init; }

    /// <summary>Free days in between with fewer people than the work takes.</summary>
    public IReadOnlyList<LocalDate> ShortOfHands { get; init; } = [];
}
