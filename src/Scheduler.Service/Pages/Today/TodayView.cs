using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Today;

/// <summary>One garden on one day, as its owner sees it first.</summary>
/// <param name="Gardens">All gardens of the owner, by name; the page shows one at a time.</param>
/// <param name="TonightMinC">Lowest expected at the bench tonight [C]; null: beyond the forecast.</param>
/// <param name="Night">Protection due tonight or tomorrow.</param>
/// <param name="NextDay">The next free day with work; null: nothing is planned.</param>
public sealed record TodayView(
    Guid GardenId, IReadOnlyList<(Guid Id, string Name)> Gardens, LocalDate Today, DateTimeZone Zone, double? TonightMinC,
    IReadOnlyList<WindowGroup> Night, IReadOnlyList<WindowGroup> Closing, IReadOnlyList<WindowGroup> Open, IReadOnlyList<WindowGroup> Held,
    IReadOnlyList<WindowGroup> Coming, IReadOnlyList<PhaseGroup> Phases, PlanDayAnswer? NextDay, bool HasTrees, bool HasWorkDays, WeatherStatus Weather)
{
    public TodayNotice? Notice { get; init; }
}

/// <summary>Windows of the same work, one a tree.</summary>
/// <param name="Why">The sentence that all of them share; null where each has its own.</param>
public sealed record WindowGroup(string Title, string? Why, IReadOnlyList<WindowItem> Items);

/// <summary>One window of one tree.</summary>
/// <param name="PromiseId">Set where the window stands for a follow-up of earlier work.</param>
public sealed record WindowItem(StoredWindow Stored, Guid? PromiseId)
{
    public WorkWindow Window => Stored.Body.Window;
    public string TreeName => Stored.Body.TreeName;
    public Guid TreeId => Stored.Key.TreeId;
}

/// <summary>A phase that trees of one species are about to reach, or have just reached by the clock alone.</summary>
public sealed record PhaseGroup(string PhaseId, string Species, LocalDate? Early, LocalDate? Late, IReadOnlyList<(Guid Id, string Name)> Trees);

/// <summary>What was just done, and what takes it back.</summary>
/// <param name="UndoPath">Null: it cannot be taken back.</param>
/// <param name="IsDoubtful">The date lies far from what the growth clock expects.</param>
public sealed record TodayNotice(string Text, string? UndoPath, bool IsDoubtful);
