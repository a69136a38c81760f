using System.Net;
using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>
/// The addresses in mails. Opening one only shows a page that asks, because mail programs open links by themselves; its button, and a
/// mail program's own one-click button (RFC 8058), send the POST that does it.
/// </summary>
public static class LinksApi
{
    public const string Confirm = "/roads/confirm";
    public const string Leave = "/roads/unsubscribe";

    internal static void MapLinks(this IEndpointRouteBuilder routes)
    {
        var links = routes.MapGroup(Api.Root).WithTags("Roads").AllowAnonymous().ProducesProblem(StatusCodes.Status404NotFound);
        links.MapGet(Confirm + "/{token}", AskToConfirm).WithSummary("Page of the link in the question: asks whether mails are wanted.");
        links.MapPost(Confirm + "/{token}", DoConfirm).DisableAntiforgery().WithSummary("Confirms the address; mails come from now on.");
        links.MapGet(Leave + "/{token}", AskToLeave).WithSummary("Page of the link in each mail: asks whether they shall end.");
        links.MapPost(Leave + "/{token}", DoLeave).DisableAntiforgery().WithSummary("Ends the mails, in one click (RFC 8058).");
    }

    private static async Task<IResult> AskToConfirm(
        string token, HttpContext context, RoadStore roads, AccountStore accounts, WrongSecrets wrong, IClock clock, CancellationToken cancel) =>
        await roads.ByConfirmAsync(Secrets.Hash(token), clock.GetCurrentInstant(), cancel) is { } road
            ? Page(context, await accounts.WordsAsync(road.AccountId, cancel), "Link.Confirm", "Link.ConfirmText", "Link.ConfirmDo")
            : Unknown(context, wrong);

    private static async Task<IResult> DoConfirm(
        string token, HttpContext context, RoadStore roads, RoadKeeper keeper, AccountStore accounts, WrongSecrets wrong, IClock clock, CancellationToken cancel)
    {
        if (await roads.ByConfirmAsync(Secrets.Hash(token), clock.GetCurrentInstant(), cancel) is not { } road)
            return Unknown(context, wrong);
        await keeper.ConfirmAsync(road, cancel);
        return Page(context, await accounts.WordsAsync(road.AccountId, cancel), "Link.Confirmed", "Link.ConfirmedText", null);
    }

    private static async Task<IResult> AskToLeave(
        string token, HttpContext context, RoadStore roads, AccountStore accounts, WrongSecrets wrong, CancellationToken cancel) =>
        await roads.ByLeaveAsync(Secrets.Hash(token), cancel) is { } road
            ? Page(context, await accounts.WordsAsync(road.AccountId, cancel), "Link.Leave", "Link.LeaveText", "Link.LeaveDo")
            : Unknown(context, wrong);

    private static async Task<IResult> DoLeave(
        string token, HttpContext context, RoadStore roads, RoadKeeper keeper, AccountStore accounts, WrongSecrets wrong, CancellationToken cancel)
    {
        if (await roads.ByLeaveAsync(Secrets.Hash(token), cancel) is not { } road)
            return Unknown(context, wrong);
        if (road.State != RoadState.Unsubscribed)
            await keeper.LeaveAsync(road, cancel);
        return Page(context, await accounts.WordsAsync(road.AccountId, cancel), "Link.Left", "Link.LeaveText", null);
    }

    private static IResult Unknown(HttpContext context, WrongSecrets wrong) =>
        wrong.Count(context) ? Problems.NotFound() : Problems.Of(StatusCodes.Status429TooManyRequests);

    private static IResult Page(HttpContext context, OwnerWords words, string titleKey, string textKey, string? buttonKey)
    {
        var (title, text) = (WebUtility.HtmlEncode(words[titleKey]), WebUtility.HtmlEncode(words[textKey]));
        context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'";
        context.Response.Headers["X-Robots-Tag"] = "noindex";
        // The form goes to the page's own address, which is the secret.
        var form = buttonKey is null ? "" : $"<form method=\"post\"><button>{WebUtility.HtmlEncode(words[buttonKey])}</button></form>";
        return Results.Content(
            $"""
            <!doctype html>
            <html lang="{words.Language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{title}</title></head>
            <body><main><h1>{title}</h1><p>{text}</p>{form}</main></body></html>
            """,
            "text/html; charset=utf-8");
    }
}
