using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

public sealed class WebhookRoadTests : IAsyncLifetime
{
    private RoadBench _bench = null!;

    public async Task InitializeAsync() => _bench = await RoadBench.StartAsync();

    public async Task DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task Notice_Arrives_SignedOverIdTimeAndBody()
    {
        var (id, secret) = await _bench.WebhookAsync();
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20)));
        await _bench.DrainAsync();

        var taken = Assert.Single(_bench.Web.Requests);
        Assert.Equal(Signature(secret, taken), taken.Headers["webhook-signature"]);
        Assert.Equal(_bench.Clock.GetCurrentInstant().ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture), taken.Headers["webhook-timestamp"]);
        Assert.Equal("application/json; charset=utf-8", taken.Headers["Content-Type"]);
        var body = JsonDocument.Parse(taken.Body).RootElement;
        Assert.Equal("notice.opening", body.GetProperty("type").GetString());
        var data = body.GetProperty("data");
        Assert.Equal("2026-04-17", data.GetProperty("due").GetString());
        Assert.False(data.GetProperty("urgent").GetBoolean());
        Assert.Equal("Pinch window opens: Old maple, likely 17 April", data.GetProperty("text").GetString());
        Assert.Equal("tip-pinch", data.GetProperty("window").GetProperty("technique").GetString());
        Assert.Equal(0, (await _bench.RoadAsync(id)).GetProperty("pending").GetInt32());
    }

    [Fact]
    public async Task Road_TellsNothing_BeforeATestArrived()
    {
        _bench.Web.Says(StatusCodes.Status500InternalServerError);
        var road = await _bench.MakeAsync(new JsonObject { ["kind"] = "webhook", ["url"] = new Uri(_bench.Web.Address, "/hook").AbsoluteUri });
        var id = road.GetProperty("id").GetString()!;
        Assert.Equal("unconfirmed", road.GetProperty("state").GetString());
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today));
        await _bench.DrainAsync();
        Assert.Empty(_bench.Web.Requests);

        var failed = await _bench.TestAsync(id);
        Assert.Equal((false, "It answered 500.", "unconfirmed"), (failed.GetProperty("arrived").GetBoolean(), failed.GetProperty("error").GetString(), failed.GetProperty("state").GetString()));
        Assert.Equal("It answered 500.", (await _bench.RoadAsync(id)).GetProperty("lastError").GetString());
        _bench.Web.Says(StatusCodes.Status204NoContent);
        _bench.Web.Requests.Clear();
        Assert.Equal("on", (await _bench.TestAsync(id)).GetProperty("state").GetString());
        var test = Assert.Single(_bench.Web.Requests);
        Assert.Equal(Signature(road.GetProperty("secret").GetString()!, test), test.Headers["webhook-signature"]);
        // What still lies ahead is told: tonight's frost.
        await _bench.DrainAsync();
        Assert.Equal("notice.protection", JsonDocument.Parse(_bench.Web.Requests.Last().Body).RootElement.GetProperty("type").GetString());
    }

    [Fact]
    public async Task Redirect_CountsAsFailure_AndIsSaid()
    {
        var (id, _) = await _bench.WebhookAsync();
        _bench.Web.Answer = context => { context.Response.Redirect("http://169.254.169.254/"); return Task.CompletedTask; };
        Assert.Contains("Redirects are not followed", (await _bench.TestAsync(id)).GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.Single(_bench.Web.Requests);
    }

    [Fact]
    public async Task Gone_EndsTheRoad()
    {
        var (id, _) = await _bench.WebhookAsync();
        _bench.Web.Says(StatusCodes.Status410Gone);
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today));
        await _bench.DrainAsync();
        await _bench.PassAsync(Duration.FromHours(1));
        Assert.Single(_bench.Web.Requests);
        Assert.Equal("gone", (await _bench.RoadAsync(id)).GetProperty("state").GetString());
    }

    [Fact]
    public async Task End_ThatAsksForPatience_GetsIt()
    {
        await _bench.WebhookAsync();
        _bench.Web.Answer = context =>
        {
            context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            context.Response.Headers.RetryAfter = "1200";
            return Task.CompletedTask;
        };
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today, _bench.Today.PlusDays(20), WindowState.Open));
        await _bench.DrainAsync();
        await _bench.PassAsync(Duration.FromMinutes(19));
        Assert.Single(_bench.Web.Requests);
        await _bench.PassAsync(Duration.FromMinutes(1));
        Assert.Equal(2, _bench.Web.Requests.Count);
        Assert.Single(_bench.Web.Requests.Select(taken => taken.Headers["webhook-id"]).Distinct());
    }

    [Fact]
    public async Task Rotation_GivesANewSecret_ThatATestMustShowFirst()
    {
        var (id, old) = await _bench.WebhookAsync();
        using var answer = await _bench.Owner.PostAsync($"{RoadBench.Root}/{id}/rotate", null);
        var rotated = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
        var secret = rotated.GetProperty("secret").GetString()!;
        Assert.NotEqual(old, secret);
        Assert.Equal("unconfirmed", rotated.GetProperty("state").GetString());
        Assert.Equal("on", (await _bench.TestAsync(id)).GetProperty("state").GetString());
        var test = _bench.Web.Requests.Last();
        Assert.Equal(Signature(secret, test), test.Headers["webhook-signature"]);
        Assert.Equal(JsonValueKind.Null, (await _bench.RoadAsync(id)).GetProperty("secret").ValueKind);
    }

    // Written from the specification, not with the sender's code.
    private static string Signature(string secret, Taken taken)
    {
        var text = $"{taken.Headers["webhook-id"]}.{taken.Headers["webhook-timestamp"]}.{Encoding.UTF8.GetString(taken.Body)}";
        return "v1," + Convert.ToBase64String(HMACSHA256.HashData(Convert.FromBase64String(secret["whsec_".Length..]), Encoding.UTF8.GetBytes(text)));
    }
}
