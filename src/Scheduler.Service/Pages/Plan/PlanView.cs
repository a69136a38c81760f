using NodaTime;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Plan;

/// <summary>The owner's next free days with their work.</summary>
/// <param name="Days">After the filter.</param>
/// <param name="Windows">Of the whole garden, by id.</param>
/// <param name="Held">Windows that the weather holds just now.</param>
/// <param name="Week">Form of the usual week.</param>
/// <param name="Away">Form of days away.</param>
/// <param name="Extra">Form of an extra day.</param>
public sealed record PlanView(
    Guid GardenId, IReadOnlyList<(Guid Id, string Name)> Gardens, LocalDate Today, DateTimeZone Zone, PlanQuery Query,
    IReadOnlyList<PlanDayAnswer> Days, IReadOnlyList<UnplacedAnswer> Unplaced, IReadOnlyDictionary<Guid, StoredWindow> Windows,
    IReadOnlyList<StoredWindow> Held, IReadOnlyList<(string Id, string Name)> Trees, IReadOnlyList<DayException> Exceptions, bool HasWorkDays, bool HasTrees,
    FormState Week, FormState Away, FormState Extra, WeatherStatus Weather)
{
    public TodayNotice? Notice { get; init; }
}

/// <param name="Tree">Null: all.</param>
/// <param name="Show"><c>soon</c>: days with work within four weeks; <c>work</c>: all days with work; <c>all</c>: empty free days too.</param>
/// <param name="Sort">Order of what found no place: <c>date</c> or <c>tree</c>.</param>
public sealed record PlanQuery(string? Tree, string Show, string Sort)
{
    public bool IsUsual => this is { Tree: null, Show: "soon", Sort: "date" };

    public static PlanQuery Of(string? tree, string? show, string? sort) =>
        new(string.IsNullOrEmpty(tree) ? null : tree, show is "all" or "work" ? show : "soon", sort == "tree" ? "tree" : "date");
}
