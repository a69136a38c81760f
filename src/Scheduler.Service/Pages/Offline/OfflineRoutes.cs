using Scheduler.Service.Pages.Frame;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Offline;

/// <summary>What a browser needs to install the pages and to use them without network.</summary>
public static class OfflineRoutes
{
    private const string WorkerPolicy = "default-src 'none'; connect-src 'self'; img-src 'self'";

    private static readonly string[] Icons = ["icon-192.png", "icon-512.png", "icon-maskable-512.png"];

    public static void MapOffline(this IEndpointRouteBuilder routes)
    {
        Plain(routes, "/manifest.webmanifest", "manifest.webmanifest");
        foreach (var icon in Icons)
            Plain(routes, "/icons/" + icon, icon);
        routes.MapGet("/worker.js", (HttpResponse response) =>
        {
            response.Headers.ContentSecurityPolicy = WorkerPolicy;
            return PageAssets.Plain("worker.js");
        }).AllowAnonymous().ExcludeFromDescription();
        routes.MapOpenPages().MapGet("/offline", () => Page<OfflinePage>());
        // What a tap that waited needs to be sent: the token its page had may be worth nothing by now.
        routes.MapOwnedPages().MapGet("/offline/token", (PageContext page) =>
            TypedResults.Ok(new OfflineToken(page.FormField, page.FormToken, PageSession.Of(page.Owner))));
    }

    private static void Plain(IEndpointRouteBuilder routes, string path, string asset) =>
        routes.MapGet(path, () => PageAssets.Plain(asset)).AllowAnonymous().ExcludeFromDescription();
}

/// <param name="Field">Name of the form's field.</param>
public sealed record OfflineToken(string Field, string Token, string Session);
