using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Trees;

public sealed class TreesApiTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Theory]
    [InlineData("trees")]
    [InlineData("work")]
    [InlineData("observations")]
    [InlineData("bench")]
    public async Task Thing_AllFields_ComesBackAsSentAndReplansItsGarden(string what)
    {
        using var owner = await _service.SignUpAsync();
        var (garden, tree) = await PlantAsync(owner);
        var planned = _service.Planner.Replanned.Count;
        var (list, item, sent) = what switch
        {
            "trees" => ($"gardens/{garden}/trees", "trees", Bodies.Tree()),
            "work" => ($"trees/{tree}/work", $"trees/{tree}/work", Bodies.Work()),
            "observations" => ($"trees/{tree}/observations", $"trees/{tree}/observations", Bodies.Observation()),
            _ => ($"gardens/{garden}/observations", $"gardens/{garden}/observations", Bodies.Bench())
        };
        var id = await owner.MakeAsync($"/api/v1/{list}", sent);
        var got = JsonNode.Parse(await owner.GetStringAsync($"/api/v1/{item}/{id}"))!.AsObject();
        foreach (var (field, value) in sent)
            Assert.True(JsonNode.DeepEquals(value, got[field]), $"{field}: sent {value}, got {got[field]}");
        Assert.Equal(planned + 1, _service.Planner.Replanned.Count);
        Assert.Equal(Guid.Parse(garden), _service.Planner.Replanned.Last());
        Assert.Equal(HttpStatusCode.NoContent, (await owner.DeleteAsync($"/api/v1/{item}/{id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/api/v1/{item}/{id}")).StatusCode);
        Assert.Equal(planned + 2, _service.Planner.Replanned.Count);
    }

    [Theory]
    [InlineData("5b", false)]
    [InlineData("10a", true)]
    public async Task Tree_SaysWhetherItStaysOutsideHere(string zone, bool stays)
    {
        using var owner = await _service.SignUpAsync();
        var (garden, _) = await PlantAsync(owner);
        (await owner.PatchAsync($"/api/v1/gardens/{garden}", Bodies.Raw($"{{\"hardinessZone\":\"{zone}\"}}"))).EnsureSuccessStatusCode();
        var outside = Bodies.Tree();
        outside["placement"] = "open";
        var id = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", outside);
        var hardiness = JsonNode.Parse(await owner.GetStringAsync($"/api/v1/trees/{id}"))!["hardiness"]!;
        Assert.Equal((zone, stays), ((string?)hardiness["zone"], (bool)hardiness["staysOutside"]!));
        Assert.Contains("8a", (string?)hardiness["note"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Change_OneField_KeepsTheRestAndNullClears()
    {
        using var owner = await _service.SignUpAsync();
        var (garden, tree) = await PlantAsync(owner);
        using var answer = await owner.PatchAsync($"/api/v1/trees/{tree}", Bodies.Raw("{\"stage\":\"branch-building\",\"origin\":null,\"settings\":null}"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var expected = Bodies.Tree();
        (expected["stage"], expected["origin"], expected["settings"]) = ("branch-building", null, new JsonObject());
        var got = JsonNode.Parse(await owner.GetStringAsync($"/api/v1/trees/{tree}"))!.AsObject();
        foreach (var (field, value) in expected)
            Assert.True(JsonNode.DeepEquals(value, got[field]), field);
        Assert.Equal(garden, got["gardenId"]!.GetValue<string>());
        Assert.Equal(Guid.Parse(garden), _service.Planner.Replanned.Last());
    }

    [Fact]
    public async Task Changes_ManyAtOnce_LoseNone()
    {
        using var owner = await _service.SignUpAsync();
        var (_, tree) = await PlantAsync(owner);
        string[] changes =
        [
            "{\"name\":\"new name\"}", "{\"size\":\"l\"}", "{\"health\":\"weak\"}", "{\"placement\":\"sheltered\"}", "{\"notes\":\"new\"}",
            "{\"cultivar\":\"other\"}", "{\"goals\":[\"recover\"]}", "{\"stage\":\"ramification\"}"
        ];
        var answers = await Task.WhenAll(changes.Select(change => owner.PatchAsync($"/api/v1/trees/{tree}", Bodies.Raw(change))));
        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.OK, answer.StatusCode));
        var got = JsonNode.Parse(await owner.GetStringAsync($"/api/v1/trees/{tree}"))!.AsObject();
        foreach (var change in changes)
        {
            var (field, value) = JsonNode.Parse(change)!.AsObject().Single();
            Assert.True(JsonNode.DeepEquals(value, got[field]), field);
        }
    }

    [Theory]
    [InlineData("Żółta, \"krzywa\"; \\ sosna's <b>&amp;")]
    [InlineData("🌳🍁👨‍👩‍👧 emoji")]
    [InlineData("שלום عالم ‮override")]
    [InlineData("'); DROP TABLE trees; --")]
    [InlineData("%_[]{}$1 @name :id ?")]
    public async Task Name_Hostile_ComesBackUnchanged(string name)
    {
        using var owner = await _service.SignUpAsync();
        var (garden, _) = await PlantAsync(owner);
        var sent = Bodies.Tree();
        sent["name"] = name;
        var id = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", sent);
        Assert.Equal(name, (await owner.JsonAsync($"/api/v1/trees/{id}")).GetProperty("name").GetString());
        Assert.Equal(2, (await owner.JsonAsync($"/api/v1/gardens/{garden}/trees")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Observation_PhaseAlone_IsKeptWithItsCode()
    {
        using var owner = await _service.SignUpAsync();
        var (_, tree) = await PlantAsync(owner);
        var id = await owner.MakeAsync($"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = "1994-04-02", ["phase"] = "candles-extending" });
        var got = await owner.JsonAsync($"/api/v1/trees/{tree}/observations/{id}");
        Assert.Equal(("candles-extending", 31), (got.GetProperty("phase").GetString(), got.GetProperty("bbch").GetInt32()));
    }

    [Theory]
    [InlineData("observations", "{\"date\":\"2026-04-01\"}", "phase")]
    [InlineData("observations", "{\"date\":\"2026-04-01\",\"crownZone\":\"top\"}", "phase")]
    [InlineData("work", "{\"date\":\"2026-04-01\",\"technique\":\"repotting\",\"mode\":\"routine-trim\"}", "mode")]
    public async Task Entry_ThatSaysNothingOrDoesNotFit_IsRefused(string list, string body, string named)
    {
        using var owner = await _service.SignUpAsync();
        var (_, tree) = await PlantAsync(owner);
        using var answer = await owner.PostAsync($"/api/v1/trees/{tree}/{list}", Bodies.Raw(body));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(named, JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement.GetProperty("errors").EnumerateObject().Single().Name);
    }

    private static async Task<(string Garden, string Tree)> PlantAsync(HttpClient owner)
    {
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        return (garden, await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree()));
    }
}
