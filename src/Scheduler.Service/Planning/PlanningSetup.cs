using Scheduler.Service.Hosting;

namespace Scheduler.Service.Planning;

/// <summary>The owner's days: which work on which of them.</summary>
public static class PlanningSetup
{
    public static void AddPlanning(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.Services.AddSingleton<PlanStore>();
        builder.Services.AddSingleton<WorkPlanner>();
    }

    public static void MapPlanning(this WebApplication app) => app.MapOwned("planning").MapGet("/gardens/{id:guid}/plan", PlanApi.PlanAsync)
        .WithSummary("My free days with their work in order, and what found no place; ?from= and ?to= keep the days between.");
}
