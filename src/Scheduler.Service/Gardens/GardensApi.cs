using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Gardens;

/// <summary>The owner's gardens. A change is planned anew before it is answered, so windows and feeds follow at once.</summary>
public static class GardensApi
{
    public static void AddGardens(this WebApplicationBuilder builder)
    {
        builder.Services.AddSingleton<GardenStore>();
        builder.Services.AddSingleton<ObservationStore>();
        builder.Services.AddSingleton<GardenAnswers>();
        builder.Services.AddSingleton<GardenFollowers>();
        builder.Services.AddSingleton<GardenRemoval>();
    }

    public static void MapGardens(this WebApplication app)
    {
        var mine = app.MapOwned("gardens");
        mine.MapPost("/gardens", AddAsync).Accepts<GardenRequest>("application/json").WithSummary("Adds a garden and finds its weather.");
        mine.MapGet("/gardens", ListAsync).Paged().WithSummary("My gardens.");
        mine.MapGet("/gardens/{id:guid}", FindAsync).WithSummary("One garden.");
        mine.MapPatch("/gardens/{id:guid}", ChangeAsync).Accepts<GardenRequest>("application/json")
            .WithSummary("Changes the fields that are given; windows and feeds follow at once.");
        mine.MapDelete("/gardens/{id:guid}", DeleteAsync).WithSummary("Removes a garden with its trees.");
        mine.MapBench();
    }

    private static async Task<Results<Created<GardenAnswer>, ProblemHttpResult>> AddAsync(
        JsonBody body, Caller caller, GardenStore gardens, GardenAnswers answers, GardenFollowers followers, IClock clock, CancellationToken cancel)
    {
        var fields = body.Fields();
        var garden = GardenFields.Read(fields, null, caller.AccountId, clock.GetCurrentInstant());
        if (fields.Refusal() is { } refusal)
            return refusal;
        await gardens.AddAsync(garden, cancel);
        await followers.AttachAndReplanAsync(garden.Id);
        garden = await gardens.FindAsync(caller.AccountId, garden.Id, cancel) ?? garden;
        return TypedResults.Created($"{Api.Root}/gardens/{garden.Id}", await answers.ShowAsync(garden, cancel));
    }

    private static async Task<Ok<Page<GardenAnswer>>> ListAsync(
        Caller caller, PageRequest page, GardenStore gardens, GardenAnswers answers, CancellationToken cancel)
    {
        var rows = await gardens.ListAsync(caller.AccountId, page.After, page.Limit + 1, cancel);
        var shown = new List<GardenAnswer>();
        foreach (var garden in rows.Take(page.Limit))
            shown.Add(await answers.ShowAsync(garden, cancel));
        return TypedResults.Ok(new Page<GardenAnswer>(shown, page.Next(rows, garden => garden.Id.ToString("N"))));
    }

    private static async Task<Results<Ok<GardenAnswer>, ProblemHttpResult>> FindAsync(
        Guid id, Caller caller, GardenStore gardens, GardenAnswers answers, CancellationToken cancel) =>
        await gardens.FindAsync(caller.AccountId, id, cancel) is { } garden
            ? TypedResults.Ok(await answers.ShowAsync(garden, cancel))
            : Problems.NotFound();

    private static async Task<Results<Ok<GardenAnswer>, ProblemHttpResult>> ChangeAsync(
        Guid id, JsonBody body, Caller caller, GardenStore gardens, GardenAnswers answers, GardenFollowers followers, IClock clock,
        CancellationToken cancel)
    {
        ProblemHttpResult? refusal = null;
        var (before, after) = await gardens.ChangeAsync(caller.AccountId, id, current =>
        {
            var fields = body.Fields();
            var changed = GardenFields.Read(fields, current, caller.AccountId, clock.GetCurrentInstant());
            refusal = fields.Refusal();
            return refusal is null ? changed.MovedFrom(current, fields.Has("timeZone"), fields.Has("elevationM")) : null;
        }, cancel);
        if (before is null)
            return Problems.NotFound();
        if (after is null)
            return refusal!;
        if (IsElsewhere(before, after))
            await followers.AttachAndReplanAsync(id);
        else
            await followers.ReplanAsync(id);
        after = await gardens.FindAsync(caller.AccountId, id, cancel) ?? after;
        return TypedResults.Ok(await answers.ShowAsync(after, cancel));
    }

    // A cleared time zone or height is found anew as well.
    private static bool IsElsewhere(Garden before, Garden after) =>
        (before.Latitude, before.Longitude) != (after.Latitude, after.Longitude) || after.TimeZone is null || after.ElevationM is null;

    private static async Task<Results<NoContent, ProblemHttpResult>> DeleteAsync(
        Guid id, Caller caller, GardenRemoval removal, CancellationToken cancel)
    {
        if (!await removal.RemoveAsync(caller.AccountId, id, cancel))
            return Problems.NotFound();
        return TypedResults.NoContent();
    }
}
