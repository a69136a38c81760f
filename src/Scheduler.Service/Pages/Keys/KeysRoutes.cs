using NodaTime;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Keys;

/// <summary>Access keys as a page: one for each device or script, shown once, revoked when lost.</summary>
public static class KeysRoutes
{
    private const int Most = 500;
    private static readonly string[] Sorts = ["newest", "name", "used"];
    private const string Revoke = "/keys/{id:guid}/revoke";

    public static void MapKeyPages(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/keys", async (string? did, string? q, string? sort, PageContext page, KeyStore keys, SignInStore signIns, OwnerTime time, CancellationToken cancel) =>
            Page<KeysPage>(await ViewAsync(ListQuery.Of(q, sort, Sorts), FormState.Empty, page, keys, signIns, time, cancel) with
            {
                Notice = did switch { "revoked" => page["Keys.Revoked"], "linked" => page["Oidc.Linked"], "unlinked" => page["Oidc.Removed"], _ => null }
            }));
        mine.MapPost("/keys", AddAsync);
        mine.MapGet(Revoke, async (Guid id, PageContext page, KeyStore keys, CancellationToken cancel) =>
            await keys.FindAsync(page.Owner.AccountId, id, cancel) is { } key ? Page<ConfirmPage>(Question(key, page, null)) : Missing());
        mine.MapPost(Revoke, RevokeAsync);
    }

    private static async Task<KeysView> ViewAsync(ListQuery query, FormState form, PageContext page, KeyStore keys, SignInStore signIns, OwnerTime time, CancellationToken cancel)
    {
        var all = await keys.ListAsync(page.Owner.AccountId, "", Most, cancel);
        var fitting = all.Where(key => query.Fits(key.Label)).OrderByDescending(key => key.Id == page.Owner.KeyId);
        return new KeysView(
            [.. query.Sort switch
            {
                "name" => fitting.ThenBy(key => key.Label, StringComparer.OrdinalIgnoreCase),
                "used" => fitting.ThenByDescending(key => key.LastUsedAt),
                _ => fitting.ThenByDescending(key => key.CreatedAt)
            }],
            all.Count, query, await signIns.ListAsync(page.Owner.AccountId, cancel), await time.ZoneAsync(cancel), form);
    }

    // The key is in this answer and nowhere else; sending the same form again gives the same one.
    private static async Task<IResult> AddAsync(FormBody form, PageContext page, ApiCall api, KeyStore keys, SignInStore signIns, OwnerTime time, CancellationToken cancel)
    {
        var answer = await api.PostAsync("/accounts/me/keys", form.Json(page.Locale.Culture).Text("label").Object, form);
        return answer.IsTaken
            ? Page<MadeKeyPage>(answer.Body!.Value.GetProperty("accessKey").GetString()!)
            : Page<KeysPage>(await ViewAsync(ListQuery.Of(null, null, Sorts), FormState.Refused(form, answer), page, keys, signIns, time, cancel), answer.Status);
    }

    private static async Task<IResult> RevokeAsync(Guid id, HttpContext http, PageContext page, ApiCall api, KeyStore keys)
    {
        if (await keys.FindAsync(page.Owner.AccountId, id, http.RequestAborted) is not { } key)
            return GoTo("/keys?did=revoked");
        var answer = await api.DeleteAsync("/accounts/me/keys/{id:guid}", id);
        if (!answer.IsTaken)
            return Page<ConfirmPage>(Question(key, page, page["Keys.Last"]), answer.Status);
        if (id != page.Owner.KeyId)
            return GoTo("/keys?did=revoked");
        await PageCookie.SignOutAsync(http);
        return GoTo("/");
    }

    private static Confirmation Question(AccessKey key, PageContext page, string? refusal) => new(
        page["Keys.RevokeTitle", key.Label.Length > 0 ? key.Label : page["Keys.NoLabel"]],
        page[key.Id == page.Owner.KeyId ? "Keys.RevokeOwn" : "Keys.RevokeText"], page["Keys.Revoke"], $"/keys/{key.Id}/revoke", "/keys", refusal);
}

/// <summary>All keys of an owner, the one they are signed in with first.</summary>
/// <param name="Count">Before the search.</param>
/// <param name="SignIns">Identities of the provider that open the account.</param>
public sealed record KeysView(IReadOnlyList<AccessKey> Keys, int Count, ListQuery Query, IReadOnlyList<LinkedSignIn> SignIns, DateTimeZone Zone, FormState Form)
{
    /// <summary>What was just done; null: nothing.</summary>
    public string? Notice { get; init; }
}
