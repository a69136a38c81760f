using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Planning;

/// <summary>The plan of a garden's free days.</summary>
internal static class PlanApi
{
    public static async Task<Results<Ok<PlanAnswer>, ProblemHttpResult>> PlanAsync(
        Guid id, string? from, string? to, Caller caller, GardenStore gardens, PlanStore plans, WindowStore windows, IGardenPlanner planner, IClock clock,
        CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is not { } garden)
            return Problems.NotFound();
        var faults = new FieldFaults();
        var (first, last) = DaySpan.Read(from, to, faults);
        if (faults.Any)
            return Problems.Invalid(faults);
        var plan = await plans.FindAsync(id, cancel);
        if (plan?.MadeFor != garden.DateAt(clock.GetCurrentInstant()))
        {
            // Yesterday's plan: the day's own planning has not come by yet.
            await planner.ReplanAsync(id, cancel);
            plan = await plans.FindAsync(id, cancel);
        }
        return TypedResults.Ok(PlanAnswer.Of(
            plan ?? StoredPlan.Empty, new FreeTime(garden.WorkDays, garden.Exceptions), (await windows.OfGardenAsync(id, cancel)).ToDictionary(window => window.Id),
            first ?? LocalDate.MinIsoValue, last ?? LocalDate.MaxIsoValue));
    }
}
