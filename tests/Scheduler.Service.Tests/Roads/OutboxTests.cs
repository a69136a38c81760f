using System.Collections.Concurrent;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

public sealed class OutboxTests : IAsyncLifetime
{
    private readonly ConcurrentQueue<string> _arrived = new();
    private readonly Browser _browser = new();
    private RoadBench _bench = null!;

    public async Task InitializeAsync() => _bench = await RoadBench.StartAsync();

    public async Task DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task EveryRoad_DownForAnHour_LosesAndDoublesNothing()
    {
        await _bench.MailAsync();
        await _bench.PushAsync(_browser);
        await _bench.WebhookAsync();
        var (isDown, tries) = (true, 0);
        _bench.Web.Answer = context =>
        {
            tries++;
            if (!isDown)
                _arrived.Enqueue(context.Request.Path.Value!.Contains("push", StringComparison.Ordinal) ? "push" : context.Request.Headers["webhook-id"].ToString());
            context.Response.StatusCode = isDown ? StatusCodes.Status503ServiceUnavailable : StatusCodes.Status204NoContent;
            return Task.CompletedTask;
        };
        _bench.Smtp.IsDown = true;

        var first = RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today);
        var second = RoadBench.Window(2, "Young larch", _bench.Today.PlusDays(1), _bench.Today.PlusDays(30));
        var third = RoadBench.Window(3, "Late elm", _bench.Today.PlusDays(2), _bench.Today.PlusDays(30));
        await _bench.PlanAsync(first, second);
        await _bench.DrainAsync();
        await _bench.PassAsync(Duration.FromMinutes(30));
        await _bench.PlanAsync(first, second, third);
        await _bench.PassAsync(Duration.FromMinutes(30));
        Assert.Empty(_bench.Smtp.Raw);
        Assert.Empty(_arrived);
        Assert.InRange(tries, 10, 14);

        (isDown, _bench.Smtp.IsDown) = (false, false);
        await _bench.PassAsync(Duration.FromHours(22));

        Assert.Equal(["Frost tonight: Old maple", "Bonsai work, Thursday 16 April: 2 jobs"], _bench.Smtp.Mails.Select(mail => mail.Subject));
        Assert.Equal(2, _arrived.Count(one => one == "push"));
        var hooks = _arrived.Where(one => one != "push").ToList();
        Assert.Equal(3, hooks.Count);
        Assert.Equal(3, hooks.Distinct().Count());
        Assert.All(await _bench.DeliveriesAsync(), delivery => Assert.StartsWith("sent", delivery, StringComparison.Ordinal));
        Assert.Equal(9, (await _bench.DeliveriesAsync()).Count);
    }

    [Fact]
    public async Task Job_ThatMoves_IsNotRepeated_UnlessItWasCalledOffInBetween()
    {
        await _bench.WebhookAsync();
        StoredWindow Opens(int day, WindowState state = WindowState.Forecast) => RoadBench.Window(1, "Old maple", new LocalDate(2026, 4, day), new LocalDate(2026, 5, 20), state);
        foreach (var day in new[] { 17, 18, 16, 30, 17 })
        {
            await _bench.PlanAsync(Opens(day));
            await _bench.DrainAsync();
            Assert.Single(_bench.Web.Requests);
        }
        await _bench.PlanAsync(Opens(17, WindowState.Withdrawn));
        await _bench.PlanAsync(Opens(17));
        await _bench.DrainAsync();
        Assert.Single(_bench.Web.Requests);
        await _bench.PlanAsync(Opens(17, WindowState.Withdrawn));
        await _bench.PlanAsync(Opens(16));
        await _bench.DrainAsync();
        Assert.Equal(2, _bench.Web.Requests.Count);
    }

    [Fact]
    public async Task Job_CalledOffBeforeItWasTold_IsNeverTold()
    {
        await _bench.WebhookAsync();
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20)));
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20), WindowState.Withdrawn));
        await _bench.DrainAsync();
        Assert.Empty(_bench.Web.Requests);
        Assert.Equal(["dropped webhook opening 2026-04-17"], await _bench.DeliveriesAsync());
    }

    [Fact]
    public async Task ManyWorkersAtOnce_SendOnce()
    {
        await _bench.WebhookAsync();
        _bench.Web.Answer = async context =>
        {
            await Task.Delay(200);
            context.Response.StatusCode = StatusCodes.Status204NoContent;
        };
        await _bench.PlanAsync(Enumerable.Range(1, 3).Select(number => RoadBench.Window(number, $"Tree {number}", _bench.Today.PlusDays(1), _bench.Today.PlusDays(20))));
        // Runs of their own, as in several processes on one database.
        var runs = Enumerable.Range(0, 6).Select(_ => ActivatorUtilities.CreateInstance<RoadRun>(_bench.Service.Services)).ToList();
        await Task.WhenAll(runs.Select(run => Task.Run(() => run.DrainAsync())));
        await _bench.DrainAsync();
        Assert.Equal(3, _bench.Web.Requests.Count);
        Assert.Equal(3, _bench.Web.Requests.Select(taken => taken.Headers["webhook-id"]).Distinct().Count());
    }

    [Fact]
    public async Task Worker_ThatDiedHoldingARoad_IsFollowedByAnother_WhenItsTimeIsUp()
    {
        var (id, _) = await _bench.WebhookAsync();
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(1), _bench.Today.PlusDays(20)));
        var road = Guid.Parse(id);
        await _bench.RunAsync("UPDATE roads SET claim = 'dead', claimed_until = '9999-01-01T00:00:00Z' WHERE id = @road", new { road });
        await _bench.DrainAsync();
        Assert.Empty(_bench.Web.Requests);
        await _bench.RunAsync("UPDATE roads SET claimed_until = '2020-01-01T00:00:00Z' WHERE id = @road", new { road });
        await _bench.DrainAsync();
        Assert.Single(_bench.Web.Requests);
    }

    [Fact]
    public async Task ServiceThatStopped_BetweenWindowsAndNotices_CatchesUp()
    {
        await _bench.WebhookAsync();
        var window = RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(1), _bench.Today.PlusDays(20)) with { GardenId = _bench.Garden };
        await _bench.Get<WindowStore>().SaveAsync(_bench.Garden, [window], _bench.Today, _bench.Clock.GetCurrentInstant());
        Assert.Empty(await _bench.DeliveriesAsync());
        await _bench.Get<NoticeBook>().CatchUpAsync();
        await _bench.Get<NoticeBook>().CatchUpAsync();
        await _bench.DrainAsync();
        Assert.Single(_bench.Web.Requests);
    }

    [Theory]
    // Quiet from 22 to 7 over the night of each change of the clock; the notice is raised at 23:00 and told at seven on the wall.
    [InlineData("2026-10-24T21:00:00Z", 9)]
    [InlineData("2026-03-28T22:00:00Z", 7)]
    [InlineData("2026-04-15T21:00:00Z", 8)]
    public async Task QuietHours_OverAChangeOfTheClock_EndAtTheHourOnTheWall(string now, int hours)
    {
        await using var bench = await RoadBench.StartAsync(now);
        await bench.PushAsync(_browser, new JsonObject { ["quietHours"] = new JsonObject { ["from"] = "22:00", ["to"] = "07:00" } });
        await bench.PlanAsync(RoadBench.Window(1, "Old maple", bench.Today.PlusDays(1), bench.Today.PlusDays(20)));
        await bench.DrainAsync();
        await bench.PassAsync(Duration.FromHours(hours) - Duration.FromMinutes(1));
        Assert.Empty(bench.Web.Requests);
        await bench.PassAsync(Duration.FromMinutes(1));
        Assert.Single(bench.Web.Requests);
    }

    [Theory]
    // The garden is two hours ahead of UTC. In the evening frost breaks the quiet; in the small hours there is time until seven.
    [InlineData("2026-04-15T21:00:00Z", 0)]
    [InlineData("2026-04-15T22:30:00Z", 390)]
    public async Task FrostTonight_InQuietHours_GoesWhenItMatters(string now, int minutes)
    {
        await using var bench = await RoadBench.StartAsync(now);
        await bench.PushAsync(_browser, new JsonObject { ["quietHours"] = new JsonObject { ["from"] = "22:00", ["to"] = "07:00" } });
        await bench.PlanAsync(RoadBench.Frost(1, "Old maple", bench.Today, bench.Today));
        await bench.DrainAsync();
        if (minutes > 0)
        {
            await bench.PassAsync(Duration.FromMinutes(minutes - 1));
            Assert.Empty(bench.Web.Requests);
            await bench.PassAsync(Duration.FromMinutes(1));
        }
        Assert.Single(bench.Web.Requests);
    }

    [Theory]
    // Forecast in the evening, the first night is told then and the next in the morning; forecast first at one at night, the night that is on
    // breaks the quiet and the next does not.
    [InlineData("2026-04-15T21:00:00Z", 2)]
    [InlineData("2026-04-15T23:00:00Z", 0)]
    public async Task FrostOfTwoNights_IsToldNightByNight(string now, int hoursToOne)
    {
        await using var bench = await RoadBench.StartAsync(now);
        await bench.PushAsync(_browser, new JsonObject { ["quietHours"] = new JsonObject { ["from"] = "22:00", ["to"] = "07:00" } });
        var frost = RoadBench.Frost(1, "Old maple", new LocalDate(2026, 4, 15), new LocalDate(2026, 4, 16));
        await bench.PlanAsync(frost);
        await bench.DrainAsync();
        Assert.Single(bench.Web.Requests);
        await bench.PassAsync(Duration.FromHours(hoursToOne));
        await bench.PlanAsync(frost);
        await bench.DrainAsync();
        Assert.Single(bench.Web.Requests);
        Assert.Equal(["sent push protection 2026-04-15", "pending push protection 2026-04-16"], await bench.DeliveriesAsync());
        await bench.PassAsync(Duration.FromHours(6) - Duration.FromMinutes(1));
        Assert.Single(bench.Web.Requests);
        await bench.PassAsync(Duration.FromMinutes(1));
        Assert.Equal(2, bench.Web.Requests.Count);
    }

    [Fact]
    public async Task FrostTonight_InAGardenWhoseEveningIsTheOwnersNextMorning_IsTold()
    {
        await using var bench = await RoadBench.StartAsync("2026-04-15T16:30:00Z");
        await bench.PushAsync(_browser, new JsonObject { ["quietHours"] = null, ["timeZone"] = "Asia/Tokyo" });
        await bench.PlanAsync(RoadBench.Frost(1, "Old maple", new LocalDate(2026, 4, 15), new LocalDate(2026, 4, 15)));
        await bench.DrainAsync();
        Assert.Single(bench.Web.Requests);
    }

    [Fact]
    public void Waits_Double_UpToAnHour_OrAsLongAsIsAsked() => Assert.Equal(
        [1, 2, 4, 32, 60, 60, 90, 1440],
        new[] { (1, 0), (2, 0), (3, 0), (6, 0), (7, 0), (5000, 0), (1, 90), (1, 9000) }
            .Select(one => (int)RoadRun.WaitAfter(one.Item1, one.Item2 == 0 ? null : Duration.FromMinutes(one.Item2)).TotalMinutes));
}
