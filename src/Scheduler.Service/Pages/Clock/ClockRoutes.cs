using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Clock;

/// <summary>How good the clock is here: asked for by a button, worked out beside the page, read whenever it is there.</summary>
public static class ClockRoutes
{
    public static void MapClock(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/clock", ShowAsync);
        mine.MapPost("/clock/{gardenId:guid}", StartAsync);
    }

    private static async Task<IResult> ShowAsync(
        Guid? garden, string? lead, string? species, string? sort, PageContext page, ClockBuilder builder, CancellationToken cancel) =>
        await builder.BuildAsync(page.Owner.AccountId, garden, ClockQuery.Of(lead, species, sort), cancel) is { } view
            ? Page<ClockPage>(view)
            : garden is null ? GoTo("/start") : Missing();

    private static async Task<IResult> StartAsync(
        Guid gardenId, FormBody form, PageContext page, ClockBuilder builder, GardenStore gardens, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, gardenId, cancel) is not { } garden)
            return Missing();
        var query = ClockQuery.Of(form["lead"], null, null);
        await builder.StartAsync(page.Owner.AccountId, garden, query, cancel);
        return GoTo($"/clock?garden={gardenId}&lead={query.LeadDays}");
    }
}
