using System.Text.Json;
using System.Text.Json.Nodes;
using Scheduler.Service.Tests.Roads.Support;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Roads;

/// <summary>Roads in the document of an account.</summary>
public sealed class RoadPartsTests : IAsyncLifetime
{
    private const string Export = "/api/v1/accounts/me/export";
    private const string Import = "/api/v1/accounts/me/import";

    private RoadBench _bench = null!;

    public async Task InitializeAsync()
    {
        _bench = await RoadBench.StartAsync();
        await _bench.MailAsync(new JsonObject { ["digest"] = new JsonObject { ["every"] = "week", ["at"] = "06:15", ["day"] = "friday" }, ["timeZone"] = "Asia/Tokyo" });
        await _bench.PushAsync(new Browser(), new JsonObject { ["quietHours"] = null, ["gardenIds"] = new JsonArray(_bench.Garden.ToString()) });
        await _bench.WebhookAsync(new JsonObject { ["techniques"] = new JsonArray("repotting"), ["notices"] = new JsonArray("held", "planned") });
    }

    public async Task DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task Document_IntoAnotherService_ComesOutAsTheSameBytes_ButNothingIsSentBeforeItIsSetUp()
    {
        var document = await _bench.Owner.GetStringAsync(Export);
        await using var other = await RoadBench.StartAsync();
        using var newcomer = await other.Service.SignUpAsync("Newcomer");
        using var answer = await newcomer.PostAsync(Import, Bodies.Raw(document));
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, text);
        Assert.Equal(3, JsonDocument.Parse(text).RootElement.GetProperty("roads").GetInt32());
        Assert.Equal(document, await newcomer.GetStringAsync(Export));
        Assert.Equal(["unconfirmed", "gone", "unconfirmed"], await StatesAsync(newcomer));
        Assert.Empty(other.Smtp.Raw);
    }

    [Fact]
    public async Task Document_IntoTheSameAccount_ChangesNothing()
    {
        var document = await _bench.Owner.GetStringAsync(Export);
        (await _bench.Owner.PostAsync(Import, Bodies.Raw(document))).EnsureSuccessStatusCode();
        Assert.Equal(document, await _bench.Owner.GetStringAsync(Export));
        Assert.Equal(["on", "on", "on"], await StatesAsync(_bench.Owner));
    }

    [Fact]
    public async Task Document_HoldsNoSecret()
    {
        var document = await _bench.Owner.GetStringAsync(Export);
        Assert.DoesNotContain("whsec_", document, StringComparison.Ordinal);
        Assert.DoesNotContain("/push/device", document, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Document_FromBeforeThereWereRoads_LeavesThemAlone()
    {
        var document = JsonNode.Parse(await _bench.Owner.GetStringAsync(Export))!.AsObject();
        document.Remove("roads");
        (await _bench.Owner.PostAsync(Import, Bodies.Raw(document.ToJsonString()))).EnsureSuccessStatusCode();
        Assert.Equal(["on", "on", "on"], await StatesAsync(_bench.Owner));
    }

    [Fact]
    public async Task Document_WithAWrongRoad_IsRefusedWhole()
    {
        var document = JsonNode.Parse(await _bench.Owner.GetStringAsync(Export))!.AsObject();
        document["roads"]![0]!["address"] = "nobody";
        document["roads"]![2]!["url"] = "http://hooks.example/";
        using var answer = await _bench.Owner.PostAsync(Import, Bodies.Raw(document.ToJsonString()));
        var errors = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement.GetProperty("errors");
        Assert.Equal(["roads[0].address", "roads[2].url"], errors.EnumerateObject().Select(error => error.Name));
    }

    private static async Task<IEnumerable<string?>> StatesAsync(HttpClient owner) =>
        (await owner.JsonAsync(RoadBench.Root)).GetProperty("items").EnumerateArray().Select(road => road.GetProperty("state").GetString());

}
