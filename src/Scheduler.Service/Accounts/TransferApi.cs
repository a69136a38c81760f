using Microsoft.AspNetCore.Http.HttpResults;
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
        JsonBody body, Caller caller, AccountTransfer transfer, CancellationToken cancel)
    {
        var outcome = await transfer.ImportAsync(body, caller.AccountId, null, null, cancel);
        return outcome.Refusal is { } refusal ? refusal : TypedResults.Ok(outcome.Came);
    }
}
