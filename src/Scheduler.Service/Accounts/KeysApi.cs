using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Accounts;

/// <summary>Further access keys, one for each device or script, and revoking them.</summary>
public static class KeysApi
{
    private const int MaxLabel = 100;

    public static void MapKeys(this RouteGroupBuilder mine)
    {
        mine.MapPost("/accounts/me/keys", AddAsync).Accepts<KeyRequest>("application/json").WithSummary("Makes a further access key, shown once.");
        mine.MapGet("/accounts/me/keys", ListAsync).Paged().WithSummary("My access keys, without the keys themselves.");
        mine.MapGet("/accounts/me/keys/{id:guid}", FindAsync).WithSummary("One access key, without the key itself.");
        mine.MapDelete("/accounts/me/keys/{id:guid}", RevokeAsync).ProducesProblem(StatusCodes.Status409Conflict)
            .WithSummary("Revokes an access key at once. The last one cannot be revoked.");
    }

    /// <summary>A new key: what is kept, and what is shown once.</summary>
    public static (AccessKey Kept, string Shown) NewKey(Guid accountId, string label, Instant now)
    {
        var shown = Secrets.New("key_");
        return (new AccessKey { Id = NewId.Next(), AccountId = accountId, KeyHash = Secrets.Hash(shown), Label = label, CreatedAt = now }, shown);
    }

    private static async Task<Results<Created<NewKeyAnswer>, ProblemHttpResult>> AddAsync(
        JsonBody body, Caller caller, KeyStore keys, IClock clock, CancellationToken cancel)
    {
        var fields = body.Fields();
        var label = fields.Optional("label", "", value => value.Text(MaxLabel)) ?? "";
        if (fields.Refusal() is { } refusal)
            return refusal;
        var (key, shown) = NewKey(caller.AccountId, label, clock.GetCurrentInstant());
        await keys.AddAsync(key, cancel);
        return TypedResults.Created($"{Api.Root}/accounts/me/keys/{key.Id}", new NewKeyAnswer(key.Id, label, key.CreatedAt, shown));
    }

    private static async Task<Ok<Page<KeyAnswer>>> ListAsync(Caller caller, PageRequest page, KeyStore keys, CancellationToken cancel)
    {
        var rows = await keys.ListAsync(caller.AccountId, page.After, page.Limit + 1, cancel);
        return TypedResults.Ok(page.Cut(rows, key => key.Id.ToString("N"), key => Show(key, caller)));
    }

    private static async Task<Results<Ok<KeyAnswer>, ProblemHttpResult>> FindAsync(Guid id, Caller caller, KeyStore keys, CancellationToken cancel) =>
        await keys.FindAsync(caller.AccountId, id, cancel) is { } key ? TypedResults.Ok(Show(key, caller)) : Problems.NotFound();

    private static async Task<Results<NoContent, ProblemHttpResult>> RevokeAsync(Guid id, Caller caller, KeyStore keys, CancellationToken cancel)
    {
        if (await keys.RevokeAsync(caller.AccountId, id, cancel))
            return TypedResults.NoContent();
        return await keys.FindAsync(caller.AccountId, id, cancel) is null
            ? Problems.NotFound()
            : Problems.Conflict("This is the last access key; without it the account could never be reached again. Make another first, or erase the account.");
    }

    private static KeyAnswer Show(AccessKey key, Caller caller) => new(key.Id, key.Label, key.CreatedAt, key.LastUsedAt, key.Id == caller.KeyId);
}

/// <param name="Label">What the key is for, at most 100 characters.</param>
public sealed record KeyRequest(string? Label);

/// <param name="AccessKey">Shown this once; the service keeps only its hash.</param>
public sealed record NewKeyAnswer(Guid Id, string Label, Instant CreatedAt, string AccessKey);

/// <param name="LastUsedAt">Accurate to the hour.</param>
/// <param name="Current">Whether this request came with that key.</param>
public sealed record KeyAnswer(Guid Id, string Label, Instant CreatedAt, Instant? LastUsedAt, bool Current);
