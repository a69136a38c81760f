using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Accounts;

public sealed class TransferApiTests : IDisposable
{
    private const string Export = "/api/v1/accounts/me/export";
    private const string Import = "/api/v1/accounts/me/import";

    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Document_IntoAnEmptyService_ComesOutAsTheSameBytes()
    {
        using var owner = await _service.SignUpAsync("Żółw, \"quoted\" \\ 🌳");
        await PlantAsync(owner);
        using var reading = await owner.PatchAsJsonAsync("/api/v1/accounts/me", new { units = "imperial", language = "de" });
        reading.EnsureSuccessStatusCode();
        var document = await owner.GetStringAsync(Export);
        Assert.Contains("\"units\":\"imperial\"", document, StringComparison.Ordinal);
        using var fresh = new ServiceFactory();
        using var newcomer = await fresh.SignUpAsync("Newcomer");
        using var answer = await newcomer.PostAsync(Import, Bodies.Raw(document));
        Assert.True(answer.StatusCode is HttpStatusCode.OK, await answer.Content.ReadAsStringAsync());
        Assert.Equal(document, await newcomer.GetStringAsync(Export));
        Assert.Equal(2, fresh.Weather.Attached.Count);
        Assert.Equal(2, fresh.Planner.Replanned.Count);
        Assert.Single(fresh.Feeds.Rebuilt);
    }

    [Fact]
    public async Task Document_IntoTheSameAccount_ChangesNothing()
    {
        using var owner = await _service.SignUpAsync();
        await PlantAsync(owner);
        var document = await owner.GetStringAsync(Export);
        (await owner.PostAsync(Import, Bodies.Raw(document))).EnsureSuccessStatusCode();
        Assert.Equal(document, await owner.GetStringAsync(Export));
    }

    [Fact]
    public async Task Document_AfterErasing_BringsEverythingBack()
    {
        using var owner = await _service.SignUpAsync();
        await PlantAsync(owner);
        var document = await owner.GetStringAsync(Export);
        await owner.DeleteAsync("/api/v1/accounts/me");
        using var again = await _service.SignUpAsync("Somebody");
        (await again.PostAsync(Import, Bodies.Raw(document))).EnsureSuccessStatusCode();
        Assert.Equal(document, await again.GetStringAsync(Export));
    }

    [Fact]
    public async Task Document_OfSomebodyElse_GetsNewIdsAndLeavesTheirsAlone()
    {
        using var owner = await _service.SignUpAsync();
        await PlantAsync(owner);
        var document = await owner.GetStringAsync(Export);
        using var other = await _service.SignUpAsync("Other");
        (await other.PostAsync(Import, Bodies.Raw(document))).EnsureSuccessStatusCode();
        Assert.Equal(document, await owner.GetStringAsync(Export));
        var copy = await other.GetStringAsync(Export);
        Assert.Empty(IdsIn(document).Intersect(IdsIn(copy)));
        Assert.Equal(Blank(document), Blank(copy));
        // The feed shows the copied gardens, not the owner's.
        var gardens = JsonDocument.Parse(copy).RootElement.GetProperty("gardens").EnumerateArray().Select(part => part.GetProperty("garden").GetProperty("id").GetString());
        Assert.Equal(gardens, JsonDocument.Parse(copy).RootElement.GetProperty("feeds")[0].GetProperty("gardenIds").EnumerateArray().Select(id => id.GetString()));
    }

    private static readonly (string Key, Action<JsonNode> Spoil)[] Faults =
    [
        ("format", document => document["format"] = "another"),
        ("version", document => document["version"] = 2),
        ("name", document => document.AsObject().Remove("name")),
        ("gardens[0].garden.latitude", document => Garden(document)["garden"]!["latitude"] = 123),
        ("gardens[0].garden.createdAt", document => Garden(document)["garden"]!["createdAt"] = "yesterday"),
        ("gardens[0].garden.recorded", document => Garden(document)["garden"]!["recorded"] = 1),
        ("gardens[0].readings[1].tminC", document => Garden(document)["readings"]![1]!["tminC"] = 44),
        ("gardens[0].observations[0].rootBallC", document => Garden(document)["observations"]![0]!["rootBallC"] = "cold"),
        ("gardens[0].trees[0].tree.species", document => Tree(document)["tree"]!["species"] = "acer-palmatun"),
        ("gardens[0].trees[0].tree.branches[0].crownZone", document => Tree(document)["tree"]!["branches"]![0]!["crownZone"] = "attic"),
        ("gardens[0].trees[0].tree.changedAt", document => Tree(document)["tree"]!["changedAt"] = 5),
        ("gardens[0].trees[0].work[0].technique", document => Tree(document)["work"]![0]!["technique"] = "snip"),
        ("gardens[0].trees[0].observations[0].density", document => Tree(document)["observations"]![0]!["density"] = 9),
        ("gardens[0].trees[0].dismissedFollowUps", document => Tree(document)["dismissedFollowUps"]![0]!["workId"] = Guid.NewGuid().ToString()),
        ("gardens[0].trees[0].dismissedFollowUps[0].technique", document => Tree(document)["dismissedFollowUps"]![0]!["technique"] = "snip"),
        ("gardens[1].garden.id", document => document["gardens"]![1]!["garden"]!["id"] = Garden(document)["garden"]!["id"]!.GetValue<string>()),
        ("gardens[1].trees", document => document["gardens"]![1]!["trees"] = "none"),
        ("feeds[0].content", document => document["feeds"]![0]!["content"] = "all"),
        ("feeds[0].gathered", document => document["feeds"]![0]!["gathered"] = "all"),
        ("feeds[0].span", document => document["feeds"]![0]!["span"] = "all"),
        ("feeds[0].at", document => document["feeds"]![0]!["at"] = "morning"),
        ("feeds[0].reminders[0]", document => document["feeds"]![0]!["reminders"]![0] = "tomorrow"),
        ("surplus", document => document["surplus"] = true)
    ];

    [Fact]
    public async Task Document_WithFaults_NamesEachAndAllAndBringsNothing()
    {
        using var owner = await _service.SignUpAsync();
        await PlantAsync(owner);
        var document = await owner.GetStringAsync(Export);
        using var other = await _service.SignUpAsync("Other");
        await other.GetAsync(Export);
        var before = DatabaseDump.Of(_service);
        foreach (var some in Faults.Select(fault => new[] { fault }).Append(Faults))
        {
            var spoiled = JsonNode.Parse(document)!;
            foreach (var (_, spoil) in some)
                spoil(spoiled);
            using var answer = await other.PostAsync(Import, Bodies.Raw(spoiled.ToJsonString()));
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            var errors = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement.GetProperty("errors");
            Assert.Equal(some.Select(fault => fault.Key).Order(), errors.EnumerateObject().Select(error => error.Name).Order());
        }
        Assert.Equal(before, DatabaseDump.Of(_service));
    }

    private static JsonNode Garden(JsonNode document) => document["gardens"]![0]!;

    private static JsonNode Tree(JsonNode document) => Garden(document)["trees"]![0]!;

    private async Task PlantAsync(HttpClient owner)
    {
        var first = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var second = await owner.MakeAsync("/api/v1/gardens", new JsonObject { ["name"] = "bare", ["latitude"] = -41.000000000001, ["longitude"] = 0.1 });
        for (var i = 0; i < 2; i++)
        {
            var tree = await owner.MakeAsync($"/api/v1/gardens/{first}/trees", Bodies.Tree());
            var work = Guid.Parse(await owner.MakeAsync($"/api/v1/trees/{tree}/work", Bodies.Work()));
            await owner.MakeAsync($"/api/v1/trees/{tree}/observations", Bodies.Observation());
            await _service.Services.GetRequiredService<PromiseStore>().DismissAsync(
                PromiseId.Of(work, "feed-again", i == 0 ? "feeding" : null), work, "feed-again", i == 0 ? "feeding" : null, default);
        }
        await owner.MakeAsync($"/api/v1/gardens/{first}/observations", Bodies.Bench());
        await using var connection = await _service.Services.GetRequiredService<Database>().OpenAsync();
        var garden = Guid.Parse(first).ToString("N");
        var account = await connection.QuerySingleAsync<string>("SELECT account_id FROM gardens WHERE id = @garden", new { garden });
        await connection.ExecuteAsync(
            """
            INSERT INTO readings (garden_id, date, tmin_c, tmax_c) VALUES (@garden, '2026-03-01', -2.4, 7.1), (@garden, '2026-03-02', 0.1, 9.3);
            INSERT INTO feeds (id, account_id, name, token_hash, token_sealed, garden_ids, techniques, content, reminders, gathered, span, begins_at, created_at, changed_at)
            VALUES (@feed, @account, 'all, of; it', @feed, 'x', @gardens, '["repotting"]', 'windows', '["P1D"]', 'technique', 'opening', '07:30', '2026-04-15T12:00:00Z', '2026-04-15T12:00:00Z')
            """,
            new { garden, account, feed = Guid.NewGuid().ToString("N"), gardens = $"[\"{first}\",\"{second}\"]" });
    }

    private static IEnumerable<string> IdsIn(string document) =>
        System.Text.RegularExpressions.Regex.Matches(document, "[0-9a-f]{8}-[0-9a-f-]{27}").Select(match => match.Value).Distinct();

    private static string Blank(string document) =>
        System.Text.RegularExpressions.Regex.Replace(document, "[0-9a-f]{8}-[0-9a-f-]{27}", "id");
}
