using System.Text.Json;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>A person at a terminal subscribes over HTTP with vdirsyncer and lists the events with khal.</summary>
public sealed class SubscriptionTests
{
    [ReaderFact("khal with vdirsyncer")]
    public async Task Subscribe_Sweep_ListsEveryEventAsWritten()
    {
        await using var host = FeedHost.Start();
        var names = FeedNames.SweepTogether().ToList();
        var feed = await host.Bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT15H"));
        await host.Bench.PlanAsync(FeedBench.Garden, [.. names.Select((name, number) => FeedBench.Tree(number, name.Written, FeedSamples.Pinch()))]);
        var listed = Listed(host, feed);
        Assert.Equal(
            names.Select(name => "Pinch window opens: " + name.Line).Order(StringComparer.Ordinal),
            listed.Select(item => item.GetProperty("summary").GetString()!).Order(StringComparer.Ordinal));
        Assert.All(listed, item =>
        {
            Assert.Equal(("2021-04-12", "2021-05-03"), (item.GetProperty("start").GetString(), item.GetProperty("lastDay").GetString()));
            Assert.Equal("Garden", item.GetProperty("location").GetString());
            Assert.Contains("Work from the top of the crown down.", item.GetProperty("description").GetString(), StringComparison.Ordinal);
        });
    }

    [ReaderFact("khal with vdirsyncer")]
    public async Task Subscribe_WithdrawnAndNothing_ListsCancelledAndNothing()
    {
        await using var host = FeedHost.Start();
        var feed = await host.Bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        Assert.Empty(Listed(host, feed));
        await host.Bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()), FeedBench.Tree(2, "Elm", FeedSamples.Pinch(WindowState.Open)));
        await host.Bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(2, "Elm", FeedSamples.Pinch(WindowState.Open)));
        var listed = Listed(host, feed);
        Assert.Equal(
            ["CANCELLED Called off: Pinch window opens: Maple", "CONFIRMED Pinch window opens: Elm"],
            listed.Select(item => $"{item.GetProperty("status")} {item.GetProperty("summary")}").Order(StringComparer.Ordinal));
    }

    private static List<JsonElement> Listed(FeedHost host, Service.Feeds.Feed feed)
    {
        var url = $"{host.Anybody.BaseAddress}api/v1/calendars/{host.Bench.Tokens.Open(feed.TokenSealed)}.ics";
        return [.. Reader.Named("khal with vdirsyncer").Read(url, "2021-04-01", "60").GetProperty("events").EnumerateArray()];
    }
}
