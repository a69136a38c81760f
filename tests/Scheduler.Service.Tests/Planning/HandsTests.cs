using System.Net;
using System.Text.Json.Nodes;
using Ical.Net;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Planning;

/// <summary>Heavy pots take two: where the owner has said how many hands there are, nobody is planned to lift alone.</summary>
public class HandsTests
{
    private static readonly LocalDate Spring = new(2026, 3, 6);

    [Fact]
    public async Task RepottingALargeTree_GoesWhereTwoAreThere()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(("saturday", 240), ("sunday", 240));
        var tree = await RepottedLongAgoAsync(owner, garden);
        var unknown = await ItemAsync(owner, garden, tree);
        Assert.NotNull(unknown);
        Assert.Equal("2", PlanBench.Text(unknown.Item, "people"));
        Assert.Contains("arrange for help", unknown.Item["cautions"]![0]!.GetValue<string>(), StringComparison.Ordinal);

        // Whoever looks at the calendar only learns it there, be the visit told alone or with others of its kind.
        foreach (var gathered in new[] { "each", "technique" })
        {
            using var feed = await owner.Client.PostAsync("/api/v1/feeds", Bodies.Raw($$"""{"name":"Days","content":"plan","gathered":"{{gathered}}"}"""));
            Assert.Equal(HttpStatusCode.Created, feed.StatusCode);
            var url = new Uri(PlanBench.Text(JsonNode.Parse(await feed.Content.ReadAsStringAsync())!, "url")).PathAndQuery;
            var events = Calendar.Load(await owner.Client.GetStringAsync(url))!.Events.ToLookup(one => one.Categories[0]);
            Assert.Contains(gathered == "each" ? "It takes 2 people." : ", 2 people", Assert.Single(events["repotting"]).Description, StringComparison.Ordinal);
            Assert.All(events["tip-pinch"], one => Assert.DoesNotContain("people", one.Description!.Split("Beware")[0], StringComparison.Ordinal));
        }

        await owner.ChangeAsync(garden, Week(1, 1));
        Assert.Null(await ItemAsync(owner, garden, tree));
        var unplaced = (await owner.PlanAsync(garden)).Unplaced.First(one => PlanBench.Text(one!, "treeId") == tree && PlanBench.Text(one!, "technique") == "repotting")!;
        Assert.Equal("too-few-people", PlanBench.Text(unplaced, "cause"));
        Assert.Contains("It takes 2 people", PlanBench.Text(unplaced, "reason"), StringComparison.Ordinal);

        await owner.ChangeAsync(garden, Week(1, 2));
        var placed = await ItemAsync(owner, garden, tree);
        Assert.Equal(IsoDayOfWeek.Sunday, placed!.Date.DayOfWeek);
        Assert.Equal(2, placed.Day["people"]!.GetValue<int>());

        // A helper comes on a Saturday; on that Sunday the owner is alone.
        var alone = placed.Date;
        await owner.ChangeAsync(garden, Week(1, 1));
        await owner.ChangeAsync(garden, new JsonObject
        {
            ["exceptions"] = new JsonArray(new JsonObject { ["from"] = LocalDatePattern.Iso.Format(alone.PlusDays(-1)), ["minutes"] = 240, ["people"] = 2 })
        });
        Assert.Equal(alone.PlusDays(-1), (await ItemAsync(owner, garden, tree))!.Date);
    }

    [Fact]
    public async Task People_SurviveAChangeOfMinutesAndTheExport()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(("saturday", 60));
        await owner.ChangeAsync(garden, new JsonObject { ["workDays"] = new JsonArray(Day("saturday", 60, 2)) });
        await owner.ChangeAsync(garden, new JsonObject { ["workDays"] = PlanBench.WorkDays(("saturday", 90)) });
        Assert.Equal("""[{"day":"saturday","minutes":90,"people":2}]""", await WorkDaysAsync());
        var document = await owner.Client.GetStringAsync("/api/v1/accounts/me/export");
        using var removed = await owner.Client.DeleteAsync($"/api/v1/gardens/{garden}");
        using var imported = await owner.Client.PostAsync("/api/v1/accounts/me/import", Bodies.Raw(document));
        Assert.True(imported.IsSuccessStatusCode, await imported.Content.ReadAsStringAsync());
        var back = JsonNode.Parse(await owner.Client.GetStringAsync("/api/v1/gardens"))!["items"]![0]!;
        Assert.Equal("""[{"day":"saturday","minutes":90,"people":2}]""", back["workDays"]!.ToJsonString());
        var restored = PlanBench.Text(back, "id");
        using var cleared = await owner.Client.PatchAsync($"/api/v1/gardens/{restored}", Bodies.Raw("""{"workDays":[{"day":"saturday","minutes":90,"people":null}]}"""));
        Assert.DoesNotContain("\"people\"", await cleared.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using var wrong = await owner.Client.PatchAsync($"/api/v1/gardens/{restored}", Bodies.Raw("""{"workDays":[{"day":"saturday","minutes":90,"people":0}]}"""));
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);

        async Task<string> WorkDaysAsync() => JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}"))!["workDays"]!.ToJsonString();
    }

    private static Task<string> RepottedLongAgoAsync(PlanBench owner, string garden) => owner.Client.MakeAsync($"/api/v1/gardens/{garden}/trees", new JsonObject
    {
        ["name"] = "Heavy maple", ["species"] = "acer-palmatum", ["stage"] = "refinement", ["goals"] = new JsonArray("slender"), ["size"] = "l",
        ["health"] = "vigorous", ["placement"] = "open", ["repottedOn"] = "2019-03-20"
    });

    private static JsonObject Week(int saturday, int sunday) => new() { ["workDays"] = new JsonArray(Day("saturday", 240, saturday), Day("sunday", 240, sunday)) };

    private static JsonObject Day(string day, int minutes, int people) => new() { ["day"] = day, ["minutes"] = minutes, ["people"] = people };

    private static async Task<Placed?> ItemAsync(PlanBench owner, string garden, string tree) => (
        from day in (await owner.PlanAsync(garden)).Days
        from item in day["items"]!.AsArray()
        where PlanBench.Text(item!, "treeId") == tree && PlanBench.Text(item!, "technique") == "repotting"
        select new Placed(PlanBench.Date(PlanBench.Text(day, "date")), day, item!)).FirstOrDefault();

    private sealed record Placed(LocalDate Date, JsonNode Day, JsonNode Item);
}
