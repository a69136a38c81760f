using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Plans;

/// <summary>Seasons, windows and advice: everything that shows what the growth clock and the craft rules found.</summary>
public static class PlansSetup
{
    public static void AddPlans(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.Services.AddSingleton<PlanInputStore>();
        builder.Services.AddSingleton<WindowStore>();
        builder.Services.AddSingleton<SeasonCache>();
        builder.Services.AddSingleton<GardenFactsLoader>();
        builder.Services.AddSingleton<IObservationJudge, ObservationJudge>();
        builder.Services.AddSingleton<PromiseStore>();
        builder.Services.AddSingleton<IWorkPromises, WorkPromises>();
        builder.Services.AddSingleton<IGardenPlanner, GardenPlanner>();
    }

    public static void MapPlans(this WebApplication app)
    {
        var mine = app.MapOwned("plans");
        mine.MapGet("/gardens/{id:guid}/season", SeasonApi.SeasonAsync)
            .WithSummary("The season of each species here: heat, chill and phases with early, likely and late dates.");
        mine.MapGet("/gardens/{id:guid}/windows", WindowsApi.ListAsync).Paged()
            .WithSummary("Work windows by date; ?from= and ?to= keep those that touch the span, ?state= those in a state.");
        mine.MapGet("/trees/{id:guid}/advice", AdviceApi.AdviceAsync)
            .WithSummary("What now, how much, why and what not: every technique once.");
        mine.MapGet("/trees/{id:guid}/follow-ups", PromisesApi.OfTreeAsync).Paged()
            .WithSummary("What comes of the logged work of a tree, with dates.");
        mine.MapGet("/gardens/{id:guid}/follow-ups", PromisesApi.OfGardenAsync).Paged()
            .WithSummary("What comes of the logged work of a garden; ?from= and ?to= keep what falls due within the span.");
        mine.MapDelete("/trees/{id:guid}/follow-ups/{followUpId:guid}", PromisesApi.DismissAsync)
            .WithSummary("Lets a follow-up go; it stays in the list as dropped.");
    }
}
