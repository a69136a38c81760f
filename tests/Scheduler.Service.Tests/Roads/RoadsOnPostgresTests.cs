using System.Collections.Concurrent;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Roads.Support;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Roads;

/// <summary>All roads on a real PostgreSQL server, where several workers truly run at once. SCHEDULER_TESTS_ON=postgres runs the other tests of roads there as well.</summary>
public sealed class RoadsOnPostgresTests
{
    [PostgresFact]
    public async Task EveryRoad_ToldBySeveralWorkers_LosesAndDoublesNothing()
    {
        await using var bench = await RoadBench.StartAsync(settings: [("Storage:Provider", "postgres"), ("Storage:ConnectionString", PostgresServer.NewDatabase())]);
        await bench.MailAsync();
        await bench.PushAsync(new Browser());
        var (hook, _) = await bench.WebhookAsync();
        var (isDown, tries, arrived) = (true, 0, new ConcurrentQueue<string>());
        bench.Web.Answer = context =>
        {
            Interlocked.Increment(ref tries);
            if (!isDown)
                arrived.Enqueue(context.Request.Path.Value!.Contains("push", StringComparison.Ordinal) ? "push" : context.Request.Headers["webhook-id"].ToString());
            context.Response.StatusCode = isDown ? StatusCodes.Status503ServiceUnavailable : StatusCodes.Status204NoContent;
            return Task.CompletedTask;
        };
        var frost = RoadBench.Frost(1, "Old maple", bench.Today, bench.Today);
        var opening = RoadBench.Window(2, "Young larch", bench.Today.PlusDays(1), bench.Today.PlusDays(30));
        await bench.PlanAsync(frost, opening);

        // A worker that comes after one that failed waits as that one does.
        await AllAsync();
        Assert.Equal(2, tries);
        Assert.Empty(arrived);
        Assert.Equal(2, (await bench.RoadAsync(hook)).GetProperty("pending").GetInt32());
        isDown = false;
        bench.Clock.AdvanceMinutes(1);
        await AllAsync();
        await AllAsync();

        Assert.Equal(2, arrived.Count(one => one == "push"));
        Assert.Equal(2, arrived.Where(one => one != "push").Distinct().Count());
        Assert.Equal(4, arrived.Count);
        Assert.Equal("Frost tonight: Old maple", Assert.Single(bench.Smtp.Mails).Subject);

        // The larch moves and is not told again, is called off before the digest names it.
        await bench.PlanAsync(frost, RoadBench.Window(2, "Young larch", bench.Today.PlusDays(2), bench.Today.PlusDays(30)));
        await AllAsync();
        await bench.PlanAsync(frost, RoadBench.Window(2, "Young larch", bench.Today.PlusDays(2), bench.Today.PlusDays(30), WindowState.Withdrawn));
        await bench.Get<NoticeBook>().CatchUpAsync();
        await bench.PassAsync(Duration.FromMinutes(5));
        Assert.Equal(4, arrived.Count);
        Assert.Equal(["dropped email opening 2026-04-16", "sent email protection 2026-04-15"], (await bench.DeliveriesAsync()).Take(2));

        // Runs of their own, as in several processes on one database.
        async Task AllAsync()
        {
            var runs = Enumerable.Range(0, 4).Select(_ => ActivatorUtilities.CreateInstance<RoadRun>(bench.Service.Services)).ToList();
            await Task.WhenAll(runs.Select(run => Task.Run(() => run.DrainAsync())));
        }
    }
}
