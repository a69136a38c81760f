using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Accounts;

/// <summary>An import: what came in, or why nothing did.</summary>
public sealed record ImportOutcome(ImportAnswer? Came, ProblemHttpResult? Refusal);

/// <summary>Brings a document in and has everything follow it that hangs on it. For a large account this takes minutes.</summary>
public sealed class AccountTransfer(DocumentReader reader, AccountImport import, GardenFollowers followers)
{
    /// <param name="expect">Told how many steps there are, once that is known: the writing, and one for each garden that is planned.</param>
    /// <param name="step">Told when one of them is over.</param>
    public async Task<ImportOutcome> ImportAsync(JsonBody body, Guid accountId, Action<int>? expect, Action? step, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(body);
        if (body.Refusal is { } unreadable)
            return new ImportOutcome(null, unreadable);
        var fields = body.Fields();
        var document = reader.Read(fields, accountId);
        if (fields.Refusal() is { } refusal)
            return new ImportOutcome(null, refusal);
        expect?.Invoke(1 + document.Gardens.Count);
        var gardens = await import.WriteAsync(accountId, document, cancel);
        step?.Invoke();
        foreach (var gardenId in gardens)
        {
            await followers.AttachAndReplanAsync(gardenId);
            step?.Invoke();
        }
        if (document.Settings is not null)
            await followers.ReplanAllAsync(accountId, gardens);
        await followers.RebuildFeedsAsync(accountId);
        return new ImportOutcome(Count(document), null);
    }

    private static ImportAnswer Count(ImportedAccount document)
    {
        var trees = document.Gardens.SelectMany(garden => garden.Trees).ToList();
        return new ImportAnswer(
            document.Gardens.Count,
            document.Gardens.Sum(garden => garden.Readings.Count),
            trees.Count,
            trees.Sum(tree => tree.Work.Count),
            document.Gardens.Sum(garden => garden.Observations.Count) + trees.Sum(tree => tree.Observations.Count),
            document.Feeds.Count,
            document.Roads.Count);
    }
}
