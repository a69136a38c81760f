using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// Keeps an owner signed in on the pages, and only there: the API takes access keys alone, so that no other site can make a browser
/// write through it. The cookie names an account and one of its keys; when that key is revoked, the cookie is worth nothing.
/// </summary>
public static class PageCookie
{
    public const string SchemeName = "page";

    private static readonly TimeSpan Kept = TimeSpan.FromDays(60);

    public static void AddPageCookies(this WebApplicationBuilder builder)
    {
        var isSecure = NeedsHttps(builder.Configuration);
        builder.Services.AddAntiforgery(options =>
        {
            Harden(options.Cookie, "form", isSecure);
            options.FormFieldName = "form-token";
            options.SuppressXFrameOptionsHeader = true;
        });
        builder.Services.AddAuthentication().AddCookie(SchemeName, options =>
        {
            Harden(options.Cookie, "signed-in", isSecure);
            options.LoginPath = "/sign-in";
            options.ReturnUrlParameter = "next";
            options.ExpireTimeSpan = Kept;
            options.SlidingExpiration = true;
            options.Events.OnValidatePrincipal = CheckAsync;
            options.Events.OnRedirectToLogin = SendToSignIn;
        });
    }

    public static Task SignInAsync(HttpContext context, AccessKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        var identity = new ClaimsIdentity(
            [new Claim(Caller.AccountClaim, key.AccountId.ToString("N")), new Claim(Caller.KeyClaim, key.Id.ToString("N"))], SchemeName);
        return context.SignInAsync(SchemeName, new ClaimsPrincipal(identity), new AuthenticationProperties { IsPersistent = true });
    }

    /// <summary>Ends the sign-in; where it came from a provider, its key goes with it.</summary>
    public static async Task SignOutAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (Caller.Of(context.User) is { } caller)
            await context.RequestServices.GetRequiredService<SignInStore>().EndAsync(caller.AccountId, caller.KeyId, context.RequestAborted);
        await context.SignOutAsync(SchemeName);
    }

    /// <summary>A cookie that scripts cannot read; under https also one that no other host can set.</summary>
    internal static CookieOptions Options(HttpContext context, TimeSpan kept) => new()
    {
        HttpOnly = true, SameSite = SameSiteMode.Lax, Path = "/", MaxAge = kept, IsEssential = true,
        Secure = context.Request.IsHttps || NeedsHttps(context.RequestServices.GetRequiredService<IConfiguration>())
    };

    /// <summary>Whether the pages can be reached from elsewhere, by the listening addresses or behind a proxy.</summary>
    internal static bool NeedsHttps(IConfiguration configuration) =>
        !configuration.OnlyLoopback() || configuration["PublicUrl"]?.StartsWith("https:", StringComparison.OrdinalIgnoreCase) == true;

    internal static void Harden(CookieBuilder cookie, string name, bool isSecure)
    {
        cookie.Name = isSecure ? "__Host-" + name : name;
        cookie.Path = "/";
        cookie.HttpOnly = true;
        cookie.SameSite = SameSiteMode.Lax;
        cookie.SecurePolicy = isSecure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
    }

    private static async Task CheckAsync(CookieValidatePrincipalContext context)
    {
        var keys = context.HttpContext.RequestServices.GetRequiredService<KeyStore>();
        if (context.Principal is { } user && Caller.Of(user) is { } caller
            && await keys.FindAsync(caller.AccountId, caller.KeyId, context.HttpContext.RequestAborted) is { } key)
        {
            await keys.NoteUseAsync(key, context.HttpContext.RequestServices.GetRequiredService<IClock>().GetCurrentInstant(), context.HttpContext.RequestAborted);
            return;
        }
        context.RejectPrincipal();
        await context.HttpContext.SignOutAsync(SchemeName);
    }

    // A form that came too late is not taken, and its address may not be one to read: say so and go on from the start.
    private static Task SendToSignIn(RedirectContext<CookieAuthenticationOptions> context)
    {
        context.Response.Redirect(HttpMethods.IsGet(context.Request.Method)
            ? $"/sign-in?next={Uri.EscapeDataString(context.Request.Path + context.Request.QueryString)}"
            : "/sign-in?expired=form");
        return Task.CompletedTask;
    }
}
