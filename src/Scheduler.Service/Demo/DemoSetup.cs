using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Scheduler.Service.Feeds;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Demo;

/// <summary>Makes the demonstration on first start (setting <c>Demo</c>, default true) and prints how to use it.</summary>
public static class DemoSetup
{
    public static void AddDemo(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.Services.AddSingleton<DemoAccount>();
    }

    public static async Task MakeDemoAsync(this WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        if (!app.Configuration.GetValue("Demo", true) || await app.Services.GetRequiredService<DemoAccount>().MakeAsync() is not { } made)
            return;
        app.Lifetime.ApplicationStarted.Register(() => Console.Out.WriteLine(Words(app, made)));
    }

    private static string Words(WebApplication app, DemoMade made)
    {
        var listening = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() ?? "http://127.0.0.1:5080";
        var root = (app.Configuration["PublicUrl"] ?? listening).TrimEnd('/');
        var feed = app.Services.GetRequiredService<FeedAddresses>().Of(made.Feed, root)!;
        return $"""

            A demonstration was made: invented trees in an invented garden in each hemisphere, on invented weather.

              Page        {root}/
              API         {root}/docs
              Feed        {feed}
              Access key  {made.AccessKey}   (shown this once)

            Try:
              curl -H 'Authorization: Bearer {made.AccessKey}' '{root}{Api.Root}/gardens/{made.GardenId}/windows?limit=5'
              curl -H 'Authorization: Bearer {made.AccessKey}' '{root}{Api.Root}/gardens/{made.GardenId}/season?species=acer-palmatum'
              curl '{feed}'

            """;
    }
}
