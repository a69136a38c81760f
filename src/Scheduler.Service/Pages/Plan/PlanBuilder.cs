using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Plan;

/// <summary>Gathers what was planned for a garden's free days.</summary>
public sealed class PlanBuilder(
    GardenStore gardens, PlanStore plans, TreeStore trees, IGardenPlanner planner, TodayPictures pictures, WindowStore windows, IClock clock)
{
    public static readonly IReadOnlyList<string> Weekdays = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

    private const int SoonDays = 28;

    /// <summary>Null: the owner has no garden, or none of this id.</summary>
    public async Task<PlanView?> BuildAsync(Guid accountId, Guid? gardenId, PlanQuery query, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(query);
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
        var stored = (await windows.OfGardenAsync(garden.Id, cancel)).ToDictionary(window => window.Id);
        var free = new FreeTime(garden.WorkDays, garden.Exceptions);
        var answer = PlanAnswer.Of(plan ?? StoredPlan.Empty, free, stored, today, LocalDate.MaxIsoValue);
        var names = (await trees.OfGardenAsync(accountId, garden.Id, "", int.MaxValue, cancel))
            .Select(tree => (tree.Tree.Id.ToString(), tree.Tree.Name)).OrderBy(tree => tree.Name, StringComparer.OrdinalIgnoreCase).ToList();
        return new PlanView(
            garden.Id, [.. all.Select(one => (one.Id, one.Name))], today, TodayBuilder.ZoneOf(garden), query,
            [.. answer.Days.Select(day => Fitting(day, query)).Where(day => day.Items.Count > 0 || (query.Show == "all" && query.Tree is null))
                .TakeWhile(day => query.Show != "soon" || day.Date <= today.PlusDays(SoonDays))],
            Unplaced(answer, query), stored,
            [.. stored.Values.Where(window => window.State == WindowState.Held && (query.Tree is null || window.Key.TreeId.ToString() == query.Tree))
                .OrderBy(window => window.Body.TreeName, StringComparer.OrdinalIgnoreCase)],
            names, [.. garden.Exceptions.Where(exception => (exception.To ?? exception.From) >= today)], !free.IsUnknown, picture.HasTrees,
            Week(garden), FormState.Empty, FormState.Empty, picture.Weather);
    }

    private static FormState Week(Garden garden) => FormState.With(garden.WorkDays.Select(day =>
        (Domain.Trees.Ids.Of(day.Day), (string?)day.Minutes.ToString(System.Globalization.CultureInfo.InvariantCulture))));

    private static PlanDayAnswer Fitting(PlanDayAnswer day, PlanQuery query) =>
        query.Tree is null ? day : day with { Items = [.. day.Items.Where(item => item.TreeId.ToString() == query.Tree)] };

    private static IReadOnlyList<UnplacedAnswer> Unplaced(PlanAnswer answer, PlanQuery query)
    {
        var fitting = answer.Unplaced.Where(visit => query.Tree is null || visit.TreeId.ToString() == query.Tree);
        return query.Sort == "tree"
            ? [.. fitting.OrderBy(visit => visit.TreeName, StringComparer.OrdinalIgnoreCase).ThenBy(visit => visit.From)]
            : [.. fitting.OrderBy(visit => visit.From).ThenBy(visit => visit.TreeName, StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>The form's name of an exception, so that a button can name it.</summary>
    public static string NameOf(DayException exception)
    {
        ArgumentNullException.ThrowIfNull(exception);
        return $"{LocalDatePattern.Iso.Format(exception.From)}_{LocalDatePattern.Iso.Format(exception.To ?? exception.From)}_{exception.Minutes}";
    }
}
