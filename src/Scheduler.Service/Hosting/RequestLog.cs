using System.Diagnostics;

namespace Scheduler.Service.Hosting;

/// <summary>One line a request: method, route pattern, status, duration. Never the path itself, never a header.</summary>
public sealed partial class RequestLog(RequestDelegate next, ILogger<RequestLog> log)
{
    public async Task InvokeAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var since = Stopwatch.GetTimestamp();
        await next(context);
        if (!log.IsEnabled(LogLevel.Information))
            return;
        var pattern = (context.GetEndpoint() as RouteEndpoint)?.RoutePattern.RawText ?? "(no such address)";
        Answered(log, context.Request.Method, pattern, context.Response.StatusCode, Stopwatch.GetElapsedTime(since).TotalMilliseconds);
    }

    [LoggerMessage(EventId = 1, Level = LogLevel.Information, Message = "{Method} {Route} {Status} {Milliseconds:F1} ms")]
    private static partial void Answered(ILogger log, string method, string route, int status, double milliseconds);
}
