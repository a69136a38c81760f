using System.Globalization;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Frame;

/// <summary>What all pages have in common: who is signed in, their language, the policy for browsers, and checked forms.</summary>
public static class PageRoutes
{
    /// <summary>No text of a page can run or style anything, and no form can be sent elsewhere.</summary>
    internal const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
        + "form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    /// <summary>Pages that need a signed-in owner; others are sent to sign in.</summary>
    public static RouteGroupBuilder MapOwnedPages(this IEndpointRouteBuilder routes) =>
        routes.MapAnyPages().RequireAuthorization(new AuthorizeAttribute { AuthenticationSchemes = PageCookie.SchemeName });

    /// <summary>Pages that anybody may read.</summary>
    public static RouteGroupBuilder MapOpenPages(this IEndpointRouteBuilder routes) => routes.MapAnyPages().AllowAnonymous();

    /// <summary>
    /// Sends a page compressed. Only for pages that never show an access key or the address of a feed: beside text that a stranger can choose,
    /// the length of a compressed page would tell such secrets. The tokens of forms are other ones on each page and need no care.
    /// </summary>
    public static RouteHandlerBuilder Shrunk(this RouteHandlerBuilder route) => route.WithMetadata(new ShrinkMark());

    /// <summary>To stand after authorization.</summary>
    public static void UsePageFrame(this WebApplication app)
    {
        app.UseWhen(context => context.GetEndpoint()?.Metadata.GetMetadata<ShrinkMark>() is not null, branch => branch.UseResponseCompression());
        app.Use((context, next) =>
            context.GetEndpoint()?.Metadata.GetMetadata<PageMark>() is not null ? AsPageAsync(context, next)
            : context.GetEndpoint() is null && LooksForPage(context.Request) ? MissingAsync(context)
            : next(context));
    }

    private static RouteGroupBuilder MapAnyPages(this IEndpointRouteBuilder routes) =>
        routes.MapGroup("").WithMetadata(new PageMark()).ExcludeFromDescription().AddEndpointFilter(CheckForm);

    private static async Task AsPageAsync(HttpContext context, RequestDelegate next)
    {
        await PrepareAsync(context);
        Speak(context);
        await next(context);
    }

    private static async Task MissingAsync(HttpContext context)
    {
        await PrepareAsync(context);
        Speak(context);
        await PageResults.Missing().ExecuteAsync(context);
    }

    private static async Task PrepareAsync(HttpContext context)
    {
        // A page knows its cookie only; an access key in a header signs nobody in here.
        context.User = (await context.AuthenticateAsync(PageCookie.SchemeName)).Principal ?? new();
        context.Response.Headers.ContentSecurityPolicy = Policy;
        var caller = Caller.Of(context.User);
        var account = caller is null ? null : await context.RequestServices.GetRequiredService<AccountStore>().FindAsync(caller.AccountId, context.RequestAborted);
        context.RequestServices.GetRequiredService<PageContext>().Locale = Locale.Of(context.Request, account?.Units, account?.Language);
        if (caller is not null)
            context.Response.Headers[PageSession.Header] = PageSession.Of(caller);
    }

    // Only the language of texts; numbers and dates go through the locale, all else stays invariant. What an asynchronous method sets is
    // forgotten when it returns, so this is one of its own.
    private static void Speak(HttpContext context) =>
        CultureInfo.CurrentUICulture = context.RequestServices.GetRequiredService<PageContext>().Locale.Culture;

    private static async ValueTask<object?> CheckForm(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        if (HttpMethods.IsPost(http.Request.Method) && !await http.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(http))
            return PageResults.Page<Layout.StaleFormPage>(null, StatusCodes.Status400BadRequest);
        return await next(context);
    }

    private static bool LooksForPage(HttpRequest request) =>
        HttpMethods.IsGet(request.Method) && request.Headers.Accept.ToString().Contains("text/html", StringComparison.OrdinalIgnoreCase)
        && !request.Path.StartsWithSegments("/api");

    /// <summary>Marks an endpoint as a page; what goes wrong there is told as a page.</summary>
    private sealed class PageMark : IFaultPage
    {
        public async Task WriteAsync(HttpContext context, int status)
        {
            await PrepareAsync(context);
            Speak(context);
            await PageResults.Page<Layout.FaultPage>(status, status).ExecuteAsync(context);
        }
    }

    /// <summary>Marks a page that holds no secret next to what a stranger may choose, so that it may be sent compressed under TLS.</summary>
    private sealed class ShrinkMark;
}
