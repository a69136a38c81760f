namespace Scheduler.Service.Hosting;

/// <summary>Headers that tell browsers to trust as little as possible. An endpoint that needs another value sets its own.</summary>
public static class SecurityHeaders
{
    public static void UseSecurityHeaders(this WebApplication app) => app.Use((context, next) =>
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.XContentTypeOptions = "nosniff";
            headers.TryAdd("Referrer-Policy", "no-referrer");
            headers.TryAdd("Cross-Origin-Resource-Policy", "same-origin");
            headers.TryAdd("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'");
            headers.TryAdd("Cache-Control", "no-store");
            return Task.CompletedTask;
        });
        return next(context);
    });
}
