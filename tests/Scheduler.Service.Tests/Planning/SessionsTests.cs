using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Planning;

/// <summary>Work that takes several sessions: each one logged takes one off what is left, and only the last closes the window.</summary>
public class SessionsTests
{
    private const string Pinch = "tip-pinch";
    private static readonly LocalDate Spring = new(2026, 4, 24);

    [Fact]
    public async Task PinchingInThreeSessions_ClosesWithTheThirdAndUndoReopens()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var (garden, tree) = await OpenAsync(owner);
        var id = PlanBench.Text(await WindowAsync(owner, garden), "id");
        var before = await VisitsAsync(owner, garden, id);
        Assert.Equal([1, 2, 3], before.Select(visit => visit.Visit));

        await LogAsync(owner, tree, Spring.PlusDays(-2));
        await StandsAsync(owner, garden, "open", 1);
        var left = await VisitsAsync(owner, garden, id);
        Assert.Equal(before.Where(visit => visit.Visit > 1), left);

        // Two records of one day are one session.
        await LogAsync(owner, tree, Spring.PlusDays(-1));
        await LogAsync(owner, tree, Spring.PlusDays(-1));
        await StandsAsync(owner, garden, "open", 2);
        Assert.Equal([3], (await VisitsAsync(owner, garden, id)).Select(visit => visit.Visit));

        var last = await LogAsync(owner, tree, Spring);
        await StandsAsync(owner, garden, "done", null);
        Assert.Empty(await VisitsAsync(owner, garden, id));

        using var undone = await owner.Client.DeleteAsync($"/api/v1/trees/{tree}/work/{last}");
        Assert.Equal(HttpStatusCode.NoContent, undone.StatusCode);
        await StandsAsync(owner, garden, "open", 2);
        Assert.Equal(id, PlanBench.Text(await WindowAsync(owner, garden), "id"));
    }

    [Fact]
    public async Task OwnersWord_ClosesEarlierOrKeepsOpen()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var (garden, tree) = await OpenAsync(owner);
        var finished = await LogAsync(owner, tree, Spring, finished: true);
        await StandsAsync(owner, garden, "done", null);
        await owner.Client.DeleteAsync($"/api/v1/trees/{tree}/work/{finished}");
        for (var day = 3; day > 0; day--)
            await LogAsync(owner, tree, Spring.PlusDays(-day));
        await StandsAsync(owner, garden, "done", null);
        await LogAsync(owner, tree, Spring, finished: false);
        await StandsAsync(owner, garden, "open", 4);
        var id = PlanBench.Text(await WindowAsync(owner, garden), "id");
        Assert.Equal([5], (await VisitsAsync(owner, garden, id)).Select(visit => visit.Visit));

        var document = JsonNode.Parse(await owner.Client.GetStringAsync("/api/v1/accounts/me/export"))!.ToJsonString();
        Assert.Contains("\"finished\":false", document, StringComparison.Ordinal);
    }

    private static async Task<(string Garden, string Tree)> OpenAsync(PlanBench owner)
    {
        var garden = await owner.GardenAsync(("monday", 120), ("wednesday", 120), ("friday", 120), ("saturday", 180), ("sunday", 180));
        var tree = await owner.MapleAsync(garden, "Old maple");
        await owner.Client.MakeAsync($"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = Day(owner.Today), ["bbch"] = 10, ["soft"] = true });
        await StandsAsync(owner, garden, "open", null);
        return (garden, tree);
    }

    private static Task<string> LogAsync(PlanBench owner, string tree, LocalDate date, bool? finished = null)
    {
        var body = new JsonObject { ["technique"] = Pinch, ["date"] = Day(date), ["minutes"] = 30 };
        if (finished is not null)
            body["finished"] = finished;
        return owner.Client.MakeAsync($"/api/v1/trees/{tree}/work", body);
    }

    private static async Task StandsAsync(PlanBench owner, string garden, string state, int? sessionsDone)
    {
        var window = await WindowAsync(owner, garden);
        Assert.Equal((state, sessionsDone), (PlanBench.Text(window, "state"), window["sessionsDone"]?.GetValue<int>()));
        Assert.Equal(sessionsDone is not null, window["reasons"]!.AsArray().Any(reason => reason!.GetValue<string>() == "sessions-left"));
    }

    private static async Task<JsonNode> WindowAsync(PlanBench owner, string garden) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/windows?limit=200"))!["items"]!.AsArray()
            .First(window => PlanBench.Text(window!, "technique") == Pinch && PlanBench.Text(window!["opens"]!, "likely").StartsWith("2026", StringComparison.Ordinal))!;

    private static async Task<List<PlanItem>> VisitsAsync(PlanBench owner, string garden, string id) =>
        [.. (await owner.PlanAsync(garden)).Items.Where(item => item.WindowId == id).OrderBy(item => item.Visit).Select(item => item with { Visits = 0 })];

    private static string Day(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
