using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Accounts;

/// <summary>All I own as one document, and back.</summary>
public static class TransferApi
{
    private const int MaxDocument = 32 * 1024 * 1024;

    public static void MapTransfer(this RouteGroupBuilder mine)
    {
        mine.MapGet("/accounts/me/export", ExportAsync).WithSummary("All I own as one document.");
        mine.MapPost("/accounts/me/import", ImportAsync).Accepts<AccountDocument>("application/json")
            .WithMetadata(new BodyCap(MaxDocument)).WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MaxDocument))
            .WithSummary("Brings an exported document back, all of it or nothing.");
    }

    private static async Task<Results<Ok<AccountDocument>, ProblemHttpResult>> ExportAsync(
        Caller caller, AccountExport export, CancellationToken cancel) =>
        await export.ReadAsync(caller.AccountId, cancel) is { } document ? TypedResults.Ok(document) : Problems.NotFound();

    private static async Task<Results<Ok<ImportAnswer>, ProblemHttpResult>> ImportAsync(
        JsonBody body, Caller caller, DocumentReader reader, AccountImport import, GardenFollowers followers, CancellationToken cancel)
    {
        var fields = body.Fields();
        var document = reader.Read(fields, caller.AccountId);
        if (fields.Refusal() is { } refusal)
            return refusal;
        var gardens = await import.WriteAsync(caller.AccountId, document, cancel);
        foreach (var gardenId in gardens)
            await followers.AttachAndReplanAsync(gardenId);
        if (document.Settings is not null)
            await followers.ReplanAllAsync(caller.AccountId, gardens);
        await followers.RebuildFeedsAsync(caller.AccountId);
        var trees = document.Gardens.SelectMany(garden => garden.Trees).ToList();
        return TypedResults.Ok(new ImportAnswer(
            document.Gardens.Count,
            document.Gardens.Sum(garden => garden.Readings.Count),
            trees.Count,
            trees.Sum(tree => tree.Work.Count),
            document.Gardens.Sum(garden => garden.Observations.Count) + trees.Sum(tree => tree.Observations.Count),
            document.Feeds.Count,
            document.Roads.Count));
    }
}
