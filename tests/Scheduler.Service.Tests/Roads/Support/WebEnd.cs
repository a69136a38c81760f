using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace Scheduler.Service.Tests.Roads.Support;

/// <summary>One request as it came.</summary>
internal sealed record Taken(string Path, IReadOnlyDictionary<string, string> Headers, byte[] Body);

/// <summary>A real web server on a port of this machine: a push service or the receiver of a webhook.</summary>
internal sealed class WebEnd : IAsyncDisposable
{
    private readonly WebApplication _app;

    private WebEnd(WebApplication app) => _app = app;

    public Uri Address => new(_app.Urls.First());

    public ConcurrentQueue<Taken> Requests { get; } = new();

    /// <summary>What it answers; 201 when nothing else is said.</summary>
    public Func<HttpContext, Task> Answer { get; set; } = context =>
    {
        context.Response.StatusCode = StatusCodes.Status201Created;
        return Task.CompletedTask;
    };

    public void Says(int status) => Answer = context =>
    {
        context.Response.StatusCode = status;
        return Task.CompletedTask;
    };

    public static async Task<WebEnd> StartAsync(Action<Microsoft.AspNetCore.Server.Kestrel.Core.ListenOptions>? listen = null)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrel(kestrel => kestrel.Listen(System.Net.IPAddress.Loopback, 0, options => listen?.Invoke(options)));
        var app = builder.Build();
        var end = new WebEnd(app);
        app.Run(async context =>
        {
            using var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body);
            end.Requests.Enqueue(new Taken(
                context.Request.Path,
                context.Request.Headers.ToDictionary(header => header.Key, header => header.Value.ToString(), StringComparer.OrdinalIgnoreCase), body.ToArray()));
            await end.Answer(context);
        });
        await app.StartAsync();
        return end;
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();
}
