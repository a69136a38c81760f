using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using NodaTime;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

public sealed class RoadRunTests
{
    [Fact]
    public async Task LogAndMetrics_AtTheMostTalkativeLevel_HoldNoAddressAndNoSecret()
    {
        await using var bench = await RoadBench.StartAsync(settings: [("Logging:LogLevel:Default", "Trace"), ("Logging:LogLevel:System.Net.Http", "Trace")]);
        var ear = new LogEar();
        bench.Get<ILoggerFactory>().AddProvider(ear);
        await bench.MailAsync();
        var browser = new Browser();
        await bench.PushAsync(browser);
        var named = new UriBuilder(new Uri(bench.Web.Address, "/hook")) { Host = "localhost" }.Uri.AbsoluteUri;
        var (_, secret) = await bench.WebhookAsync(new JsonObject { ["url"] = named });
        bench.Web.Says(StatusCodes.Status500InternalServerError);
        bench.Smtp.IsDown = true;
        await bench.PlanAsync(RoadBench.Frost(1, "Old maple", bench.Today, bench.Today));
        await bench.DrainAsync();
        bench.Web.Says(StatusCodes.Status204NoContent);
        bench.Smtp.IsDown = false;
        await bench.PassAsync(Duration.FromMinutes(3));
        var leave = RoadBench.LinkIn(bench.Smtp.Mails[^1].TextBody!, "/unsubscribe/");
        await bench.Service.Anonymous().PostAsync(leave, null);

        Assert.Contains(ear.Lines, line => line.Contains("Nothing arrived by Webhook road", StringComparison.Ordinal));
        Assert.Contains(ear.Lines, line => line.Contains("roads/unsubscribe/{token}", StringComparison.Ordinal));
        var auth = browser.Subscription(bench.Web.Address)["keys"]!["auth"]!.GetValue<string>();
        foreach (var kept in new[] { RoadBench.Address, secret, "/hook", "/push/device", auth, leave[(leave.LastIndexOf('/') + 1)..] })
            Assert.All(ear.Lines, line => Assert.False(line.Contains(kept, StringComparison.Ordinal), line));
        // Anybody may read the metrics: they name no host that owners named.
        var metrics = await bench.Service.Anonymous().GetStringAsync("/metrics");
        Assert.Contains("http_server_request_duration", metrics, StringComparison.Ordinal);
        // (The receiver runs in this process, so its own side is measured as well.)
        Assert.DoesNotContain(metrics.Split('\n'), line => line.StartsWith("http_client_", StringComparison.Ordinal) && line.Contains($"\"{bench.Web.Address.Port}\"", StringComparison.Ordinal));
        Assert.DoesNotContain("dns_lookup", metrics, StringComparison.Ordinal);
    }

    // The way to a running service: the worker hears the bell, makes its round and waits for the next thing due.
    [Fact]
    public async Task Worker_SendsWhatIsRaised_WithoutBeingAsked()
    {
        await using var bench = await RoadBench.StartAsync();
        await bench.WebhookAsync();
        using var worker = ActivatorUtilities.CreateInstance<RoadWorker>(bench.Service.Services);
        await worker.StartAsync(default);
        await Task.Delay(300);
        await bench.PlanAsync(RoadBench.Frost(1, "Old maple", bench.Today, bench.Today));
        for (var wait = 0; wait < 100 && bench.Web.Requests.IsEmpty; wait++)
            await Task.Delay(100);
        await worker.StopAsync(default);
        Assert.Single(bench.Web.Requests);
    }
}
