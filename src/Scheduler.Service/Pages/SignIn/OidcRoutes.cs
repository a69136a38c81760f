using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Hosting;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.SignIn;

/// <summary>To the provider and back: signing in with a linked identity, opening an account with a new one, linking one to an account.</summary>
public static class OidcRoutes
{
    private const string Came = "/sign-in/oidc/came";
    private const string RemovePath = "/keys/sign-ins/{id:guid}/remove";

    public static void MapOidc(this IEndpointRouteBuilder routes)
    {
        if (!routes.ServiceProvider.GetRequiredService<IOptions<OidcOptions>>().Value.IsOn)
            return;
        var open = routes.MapOpenPages();
        // A link, not a form: the pages' policy lets no form lead elsewhere.
        open.MapGet("/sign-in/oidc", (string? next) => Results.Challenge(
            new AuthenticationProperties { RedirectUri = $"{Came}?next={Uri.EscapeDataString(SignInRoutes.Local(next))}" }, [OidcSetup.SchemeName]));
        open.MapGet(Came, CameAsync);
        open.MapPost("/sign-in/oidc/new", OpenAccountAsync).RequireRateLimiting(RateLimits.SignUp);
        var mine = routes.MapOwnedPages();
        mine.MapGet("/keys/sign-ins/link", () => Results.Challenge(
            new AuthenticationProperties { RedirectUri = "/keys/sign-ins/new" }, [OidcSetup.SchemeName]));
        mine.MapGet("/keys/sign-ins/new", async (HttpContext http, PageContext page, IOptions<OidcOptions> oidc) =>
            await WhoAsync(http) is { } who ? Page<ConfirmPage>(Linking(page, oidc.Value, who, null)) : GoTo("/keys"));
        mine.MapPost("/keys/sign-ins/new", LinkAsync);
        mine.MapGet(RemovePath, async (Guid id, PageContext page, SignInStore signIns, IOptions<OidcOptions> oidc, CancellationToken cancel) =>
            (await signIns.ListAsync(page.Owner.AccountId, cancel)).Any(one => one.Id == id) ? Page<ConfirmPage>(Removal(page, oidc.Value, id, null)) : Missing());
        mine.MapPost(RemovePath, RemoveAsync);
    }

    private static async Task<IResult> CameAsync(string? next, HttpContext http, PageContext page, SignInStore signIns, IOptions<OidcOptions> oidc, IOptions<AccountsOptions> accounts, IClock clock)
    {
        if (await WhoAsync(http) is not { } who)
            return GoTo("/sign-in?oidc=failed");
        if (await signIns.FindAsync(who.Issuer, who.Subject, http.RequestAborted) is not { } known)
            return Page<OidcNewPage>(new OidcNewView(FormState.With(("name", who.Name)), accounts.Value.SignUp!, oidc.Value.Shown));
        await BeginAsync(known, http, page, signIns, oidc.Value, clock);
        return GoTo(SignInRoutes.Local(next));
    }

    private static async Task<IResult> OpenAccountAsync(
        FormBody form, HttpContext http, PageContext page, ApiCall api, KeyStore keys, SignInStore signIns, IOptions<OidcOptions> oidc,
        IOptions<AccountsOptions> accounts, IDataProtectionProvider protection, IClock clock)
    {
        if (await WhoAsync(http) is not { } who)
            return GoTo("/sign-in?oidc=failed");
        // Sent twice, it is known by now.
        if (await signIns.FindAsync(who.Issuer, who.Subject, http.RequestAborted) is null)
        {
            var answer = await api.PostAsync("/accounts", form.Json(page.Locale.Culture).Text("name", "invitation").Object, form);
            if (!answer.IsTaken)
                return Page<OidcNewPage>(new OidcNewView(FormState.Refused(form, answer), accounts.Value.SignUp!, oidc.Value.Shown), answer.Status);
            var shown = answer.Body!.Value.GetProperty("accessKey").GetString()!;
            var key = await keys.FindAsync(Secrets.Hash(shown), http.RequestAborted);
            if (key is null)
                return GoTo("/sign-in");
            await signIns.AddAsync(Link(who, key.AccountId, clock), http.RequestAborted);
            SignInRoutes.KeepShown(http, protection, shown);
        }
        var known = (await signIns.FindAsync(who.Issuer, who.Subject, http.RequestAborted))!;
        await BeginAsync(known, http, page, signIns, oidc.Value, clock);
        // The account's own key is the way in should the provider be gone one day.
        return GoTo("/account/key");
    }

    private static async Task<IResult> LinkAsync(HttpContext http, PageContext page, SignInStore signIns, IOptions<OidcOptions> oidc, IClock clock)
    {
        if (await WhoAsync(http) is not { } who)
            return GoTo("/keys");
        if (!await signIns.AddAsync(Link(who, page.Owner.AccountId, clock), http.RequestAborted)
            && (await signIns.FindAsync(who.Issuer, who.Subject, http.RequestAborted))?.AccountId != page.Owner.AccountId)
        {
            return Page<ConfirmPage>(Linking(page, oidc.Value, who, page["Oidc.Taken"]), StatusCodes.Status409Conflict);
        }
        await http.SignOutAsync(OidcSetup.CameScheme);
        return GoTo("/keys?did=linked");
    }

    private static async Task<IResult> RemoveAsync(Guid id, HttpContext http, PageContext page, SignInStore signIns, IOptions<OidcOptions> oidc)
    {
        var isThere = (await signIns.ListAsync(page.Owner.AccountId, http.RequestAborted)).Any(one => one.Id == id);
        return !isThere || await signIns.RemoveAsync(page.Owner.AccountId, id, http.RequestAborted)
            ? GoTo("/keys?did=unlinked")
            : Page<ConfirmPage>(Removal(page, oidc.Value, id, page["Oidc.Last"]), StatusCodes.Status409Conflict);
    }

    private static async Task BeginAsync(LinkedSignIn known, HttpContext http, PageContext page, SignInStore signIns, OidcOptions oidc, IClock clock)
    {
        // Nobody ever sees this key; it is there to be revoked.
        var (key, _) = KeysApi.NewKey(known.AccountId, page["Oidc.KeyLabel", oidc.Shown], clock.GetCurrentInstant());
        await signIns.BeginAsync(key, known.Id, http.RequestAborted);
        await http.SignOutAsync(OidcSetup.CameScheme);
        await PageCookie.SignInAsync(http, key);
    }

    private static LinkedSignIn Link(Who who, Guid accountId, IClock clock) => new()
    {
        Id = NewId.Next(), Issuer = who.Issuer, Subject = who.Subject, AccountId = accountId, CreatedAt = clock.GetCurrentInstant()
    };

    private static Confirmation Linking(PageContext page, OidcOptions oidc, Who who, string? refusal) => new(
        page["Oidc.LinkTitle", oidc.Shown], page["Oidc.LinkText", who.Name ?? who.Subject], page["Oidc.LinkDo"], "/keys/sign-ins/new", "/keys", refusal);

    private static Confirmation Removal(PageContext page, OidcOptions oidc, Guid id, string? refusal) => new(
        page["Oidc.RemoveTitle", oidc.Shown], page["Oidc.RemoveText"], page["Oidc.Remove"], $"/keys/sign-ins/{id}/remove", "/keys", refusal);

    private static async Task<Who?> WhoAsync(HttpContext http)
    {
        var user = (await http.AuthenticateAsync(OidcSetup.CameScheme)).Principal;
        return user?.FindFirst("iss")?.Value is { Length: > 0 } issuer && user.FindFirst("sub")?.Value is { Length: > 0 } subject
            ? new Who(issuer, subject, user.FindFirst("name")?.Value)
            : null;
    }

    private sealed record Who(string Issuer, string Subject, string? Name);
}

/// <summary>Somebody came from the provider who has no account here yet.</summary>
/// <param name="SignUp">Who may open an account: <c>open</c>, <c>invited</c> or <c>closed</c>.</param>
public sealed record OidcNewView(FormState Form, string SignUp, string Provider);
