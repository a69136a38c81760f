using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.Options;
using Scheduler.Service.Accounts;
using Scheduler.Service.Hosting;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.SignIn;

/// <summary>Signing in with an access key, opening an account, and signing out.</summary>
public static class SignInRoutes
{
    private const string NewKeyCookie = "new-key";
    private static readonly TimeSpan NewKeyShown = TimeSpan.FromMinutes(30);

    public static void MapSignIn(this IEndpointRouteBuilder routes)
    {
        var open = routes.MapOpenPages();
        open.MapGet("/", (PageContext page, IOptions<AccountsOptions> accounts) =>
            page.Caller is null ? Page<WelcomePage>(accounts.Value) : GoTo("/today"));
        open.MapGet("/sign-in", (PageContext page, string? next, string? expired, string? oidc) =>
            page.Caller is not null ? GoTo(Local(next)) : Page<SignInPage>(new SignInView(FormState.With(("next", next)), expired is not null) { HasFailed = oidc == "failed" }));
        open.MapPost("/sign-in", SignInAsync);
        open.MapGet("/account/new", (IOptions<AccountsOptions> accounts) => Page<NewAccountPage>(new NewAccountView(FormState.Empty, accounts.Value.SignUp!)));
        open.MapPost("/account/new", OpenAccountAsync).RequireRateLimiting(RateLimits.SignUp);
        var mine = routes.MapOwnedPages();
        mine.MapGet("/account/key", ShowNewKey);
        mine.MapPost("/account/key", (HttpContext http) =>
        {
            http.Response.Cookies.Delete(NewKeyCookie);
            return GoTo("/today");
        });
        mine.MapPost("/sign-out", async (HttpContext http) =>
        {
            await PageCookie.SignOutAsync(http);
            http.Response.Cookies.Delete(NewKeyCookie);
            return GoTo("/");
        });
    }

    private static async Task<IResult> SignInAsync(FormBody form, HttpContext http, PageContext page, KeyStore keys, WrongSecrets wrong)
    {
        var found = form["key"] is { } shown ? await keys.FindAsync(Secrets.Hash(shown), http.RequestAborted) : null;
        if (found is not null)
        {
            await PageCookie.SignInAsync(http, found);
            return GoTo(Local(form["next"]));
        }
        var isTooOften = form["key"] is not null && !wrong.Count(http);
        var text = isTooOften ? page["SignIn.TooOften"] : form["key"] is null ? page["SignIn.NoKey"] : page["SignIn.WrongKey"];
        return Page<SignInPage>(
            new SignInView(FormState.Refused(form, "key", text), false), isTooOften ? StatusCodes.Status429TooManyRequests : StatusCodes.Status400BadRequest);
    }

    private static async Task<IResult> OpenAccountAsync(
        FormBody form, HttpContext http, PageContext page, ApiCall api, KeyStore keys, IOptions<AccountsOptions> accounts, IDataProtectionProvider protection)
    {
        var answer = await api.PostAsync("/accounts", form.Json(page.Locale.Culture).Text("name", "invitation").Object, form);
        if (!answer.IsTaken)
            return Page<NewAccountPage>(new NewAccountView(FormState.Refused(form, answer), accounts.Value.SignUp!), answer.Status);
        var shown = answer.Body!.Value.GetProperty("accessKey").GetString()!;
        var key = await keys.FindAsync(Secrets.Hash(shown), http.RequestAborted);
        if (key is null)
            return GoTo("/sign-in");
        await PageCookie.SignInAsync(http, key);
        KeepShown(http, protection, shown);
        return GoTo("/account/key");
    }

    /// <summary>The service keeps no key, so the browser does for a while, sealed, until its owner has put it away.</summary>
    internal static void KeepShown(HttpContext http, IDataProtectionProvider protection, string shown) =>
        http.Response.Cookies.Append(NewKeyCookie, Seal(protection).Protect(shown, NewKeyShown), PageCookie.Options(http, NewKeyShown));

    private static IResult ShowNewKey(HttpContext http, IDataProtectionProvider protection)
    {
        try
        {
            return http.Request.Cookies[NewKeyCookie] is { } kept ? Page<NewKeyPage>(Seal(protection).Unprotect(kept)) : GoTo("/today");
        }
        catch (System.Security.Cryptography.CryptographicException)
        {
            return GoTo("/today");
        }
    }

    private static ITimeLimitedDataProtector Seal(IDataProtectionProvider protection) => protection.CreateProtector("new-key").ToTimeLimitedDataProtector();

    /// <summary>An address of this service only: a link that signs in must not lead elsewhere.</summary>
    internal static string Local(string? next) =>
        next is ['/', not ('/' or '\\'), ..] && !next.Any(char.IsControl) && Uri.TryCreate("http://here" + next, UriKind.Absolute, out var url)
            ? url.PathAndQuery
            : "/today";
}

/// <param name="HasExpired">A form came after the sign-in had ended and was not taken.</param>
public sealed record SignInView(FormState Form, bool HasExpired)
{
    /// <summary>The provider sent nobody.</summary>
    public bool HasFailed { get; init; }
}

/// <param name="SignUp">Who may open an account: <c>open</c>, <c>invited</c> or <c>closed</c>.</param>
public sealed record NewAccountView(FormState Form, string SignUp);
