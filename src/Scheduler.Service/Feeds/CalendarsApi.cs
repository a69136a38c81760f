using Microsoft.Net.Http.Headers;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Feeds;

/// <summary>The feeds themselves. A poll is one look-up of kept bytes; nothing is computed, and the only key is the address.</summary>
public static class CalendarsApi
{
    public const string ContentType = "text/calendar";

    internal static void MapCalendars(this IEndpointRouteBuilder routes) =>
        routes.MapMethods(Api.Root + "/calendars/{token}.ics", [HttpMethods.Get, HttpMethods.Head], Serve)
            .WithTags("Feeds")
            .WithSummary("The feed itself, for calendar apps to subscribe to.")
            .Produces(StatusCodes.Status200OK, contentType: ContentType)
            .Produces(StatusCodes.Status304NotModified)
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status429TooManyRequests)
            .AllowAnonymous();

    private static async Task<IResult> Serve(
        string token, HttpContext context, FeedBodies bodies, FetchLog fetches, WrongSecrets wrong, CancellationToken cancel)
    {
        var headers = context.Response.Headers;
        headers["X-Robots-Tag"] = "noindex";
        headers["Referrer-Policy"] = "no-referrer";
        if (token.Length != FeedTokens.Length || await bodies.FindAsync(FeedTokens.Hash(token), cancel) is not { } feed)
            return wrong.Count(context) ? Problems.NotFound() : Problems.Of(StatusCodes.Status429TooManyRequests);
        headers.CacheControl = "private, max-age=0, must-revalidate";
        headers.Vary = HeaderNames.AcceptEncoding;
        fetches.Note(feed.Id, context.Request.Headers.UserAgent.ToString());
        // A weak tag holds for the compressed and the plain answer alike. Lists, W/ forms and dates are the framework's work.
        return Results.Bytes(
            feed.Body, ContentType + "; charset=utf-8",
            entityTag: new EntityTagHeaderValue($"\"{feed.Etag}\"", isWeak: true), lastModified: feed.BodyChangedAt.ToDateTimeOffset());
    }
}
