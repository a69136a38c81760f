using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Gardens;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Today;

/// <summary>Gathers what was planned and announced for a garden into the page of the day.</summary>
public sealed class TodayBuilder(
    GardenStore gardens, PlanStore plans, IGardenPlanner planner, TodayPictures pictures, IClock clock)
{
    private const int DaysToClose = 7;
    private const int DaysToOpen = 7;
    private static readonly string[] Nightly = ["frost-protection", "heat-shade"];

    /// <summary>Null: the owner has no garden, or none of this id.</summary>
    public async Task<TodayView?> BuildAsync(Guid accountId, Guid? gardenId, CancellationToken cancel)
    {
        var all = (await gardens.ListAsync(accountId, "", int.MaxValue, cancel)).OrderBy(one => one.CreatedAt).ToList();
        if ((gardenId is null ? all.FirstOrDefault() : all.Find(one => one.Id == gardenId)) is not { } garden)
            return null;
        var today = garden.DateAt(clock.GetCurrentInstant());
        var plan = await plans.FindAsync(garden.Id, cancel);
        if (plan?.MadeFor != today)
        {
            // Yesterday's plan: the day's own planning has not come by yet.
            await planner.ReplanAsync(garden.Id, cancel);
            plan = await plans.FindAsync(garden.Id, cancel);
        }
        if (await pictures.OfAsync(garden.Id, today, cancel) is not { } picture)
            return null;
        var stored = picture.Windows;
        var shown = stored.Select(ItemOf).ToList();
        var night = shown.Where(item => Nightly.Contains(item.Stored.Key.Technique) && item.Window.Opens.Likely <= today.PlusDays(1)).ToList();
        var rest = shown.Where(item => !Nightly.Contains(item.Stored.Key.Technique)).ToList();
        var free = new FreeTime(garden.WorkDays, garden.Exceptions);
        var days = PlanAnswer.Of(plan ?? StoredPlan.Empty, free, stored.ToDictionary(window => window.Id), today, LocalDate.MaxIsoValue).Days;
        return new TodayView(
            garden.Id, [.. all.Select(one => (one.Id, one.Name))], today, ZoneOf(garden), picture.TonightMinC,
            Groups(night),
            Groups(rest.Where(item => item.Window.State == WindowState.Open && ClosesSoon(item, today))),
            Groups(rest.Where(item => item.Window.State == WindowState.Open && !ClosesSoon(item, today))),
            Groups(rest.Where(item => item.Window.State == WindowState.Held)),
            Groups(rest.Where(item => item.Window.State == WindowState.Forecast && item.Window.Opens.Likely <= today.PlusDays(DaysToOpen))),
            picture.Phases, days.FirstOrDefault(day => day.Items.Count > 0), picture.HasTrees, !free.IsUnknown, picture.Weather);
    }

    internal static DateTimeZone ZoneOf(Garden garden) =>
        (garden.TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(garden.TimeZone)) ?? DateTimeZone.Utc;

    /// <summary>The follow-up that a window stands for; null: it is a window of a technique.</summary>
    internal static Guid? PromiseOf(StoredWindow window) =>
        PromiseWindows.IsPromise(window.Key) && Guid.TryParse(window.Key.Mode?.Split('/')[^1], out var id) ? id : null;

    private static WindowItem ItemOf(StoredWindow window) => new(window, PromiseOf(window));

    private static bool ClosesSoon(WindowItem item, LocalDate today) => item.PromiseId is null && item.Window.Closes.Likely <= today.PlusDays(DaysToClose);

    // What closes first stands first.
    private static IReadOnlyList<WindowGroup> Groups(IEnumerable<WindowItem> items) =>
    [
        .. items.GroupBy(item => item.Window.Title)
            .Select(same => new WindowGroup(same.Key, SharedWhy([.. same]),
                [.. same.OrderBy(Closes).ThenBy(item => item.TreeName, StringComparer.OrdinalIgnoreCase)]))
            .OrderBy(group => Closes(group.Items[0]))
            .ThenBy(group => group.Title, StringComparer.OrdinalIgnoreCase)
    ];

    private static LocalDate Closes(WindowItem item) => item.Window.Closes.Likely ?? LocalDate.MaxIsoValue;

    private static string? SharedWhy(IReadOnlyList<WindowItem> items)
    {
        var first = Why(items[0]);
        return items.All(item => Why(item) == first) ? first : null;
    }

    /// <summary>Why now, in one sentence: what holds it, or the main reason.</summary>
    internal static string? Why(WindowItem item) =>
        (item.Window.State == WindowState.Held ? item.Window.Reasons.FirstOrDefault(reason => reason.Id == item.Window.Hold) : null)?.Text
        ?? (item.Window.Reasons.Count > 0 ? item.Window.Reasons[0].Text : null);
}
