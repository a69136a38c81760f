using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Tests.Roads.Support;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Roads;

public sealed class PushRoadTests : IAsyncLifetime
{
    private readonly Browser _browser = new();
    private RoadBench _bench = null!;

    public async Task InitializeAsync() => _bench = await RoadBench.StartAsync();

    public async Task DisposeAsync() => await _bench.DisposeAsync();

    // The worked example of RFC 8291 section 5 (values also in its appendix A), so that the reader of these tests is itself proven.
    [Fact]
    public void Reader_OfTheRfcsExample_GivesItsText()
    {
        var browser = Browser.Of(
            "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4",
            "q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94", "BTBZMqHH6r4Tts7J_aSIgg");
        var body = System.Buffers.Text.Base64Url.DecodeFromChars(
            "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN");
        Assert.Equal("When I grow up, I want to be a watermelon", browser.Read(body));
    }

    [Fact]
    public async Task Frost_Arrives_EncryptedUrgentAndFromAKnownSender()
    {
        await _bench.PushAsync(_browser);
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today), RoadBench.Frost(2, "Young larch", _bench.Today, _bench.Today.PlusDays(1)));
        await _bench.DrainAsync();

        var taken = Assert.Single(_bench.Web.Requests);
        Assert.Equal("/push/device", taken.Path);
        Assert.Equal("aes128gcm", taken.Headers["Content-Encoding"]);
        Assert.Equal("high", taken.Headers["Urgency"]);
        // To the end of the day in the garden, fourteen hours on.
        Assert.Equal("50400", taken.Headers["TTL"]);
        Assert.Matches("^[A-Za-z0-9_-]{1,32}$", taken.Headers["Topic"]);
        var body = JsonDocument.Parse(_browser.Read(taken.Body)).RootElement;
        Assert.Equal(["title", "body", "url"], body.EnumerateObject().Select(field => field.Name));
        Assert.Equal("Frost tonight in Invented Garden: 2 trees", body.GetProperty("title").GetString());
        Assert.Equal("Old maple, Young larch. Into the frost-free shed for the night.", body.GetProperty("body").GetString());

        var key = (await _bench.Service.Anonymous().JsonAsync("/api/v1/push/key")).GetProperty("key").GetString()!;
        var claims = Browser.Claims(taken.Headers["Authorization"], key);
        Assert.Equal(_bench.Web.Address.GetLeftPart(UriPartial.Authority), claims.GetProperty("aud").GetString());
        Assert.Equal("https://trees.example", claims.GetProperty("sub").GetString());
        // The token is made by the machine's clock, as push services read it by theirs; at most 24 hours (RFC 8292 section 2).
        var lives = DateTimeOffset.FromUnixTimeSeconds(claims.GetProperty("exp").GetInt64()) - TimeProvider.System.GetUtcNow();
        Assert.InRange(lives.TotalHours, 1, 24);
    }

    [Fact]
    public async Task NewerForecast_ReplacesTheOlder_AndNamesAllTreesOfTonight()
    {
        await _bench.PushAsync(_browser);
        var maple = RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today);
        await _bench.PlanAsync(maple);
        await _bench.DrainAsync();
        _bench.Clock.AdvanceHours(3);
        await _bench.PlanAsync(maple, RoadBench.Frost(2, "Young larch", _bench.Today, _bench.Today));
        await _bench.DrainAsync();
        await _bench.PlanAsync(maple, RoadBench.Frost(2, "Young larch", _bench.Today, _bench.Today));
        await _bench.DrainAsync();

        Assert.Equal(2, _bench.Web.Requests.Count);
        Assert.Single(_bench.Web.Requests.Select(taken => taken.Headers["Topic"]).Distinct());
        Assert.Contains("Old maple, Young larch", _browser.Read(_bench.Web.Requests.Last().Body), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OtherWork_IsGatheredByGarden_AndReplacesNothing()
    {
        await _bench.PushAsync(_browser);
        var windows = Enumerable.Range(1, 6).Select(number => RoadBench.Window(number, $"Tree {number}", _bench.Today, _bench.Today.PlusDays(3), WindowState.Open)).ToList();
        await _bench.PlanAsync(windows);
        await _bench.DrainAsync();
        await _bench.PlanAsync([.. windows, RoadBench.Window(7, "Tree 7", _bench.Today, _bench.Today.PlusDays(3), WindowState.Open)]);
        await _bench.DrainAsync();

        Assert.Equal(2, _bench.Web.Requests.Select(taken => taken.Headers["Topic"]).Distinct().Count());
        var first = JsonDocument.Parse(_browser.Read(_bench.Web.Requests.First().Body)).RootElement;
        Assert.Equal("Invented Garden: 6 jobs", first.GetProperty("title").GetString());
        Assert.EndsWith("and 2 more", first.GetProperty("body").GetString(), StringComparison.Ordinal);
        Assert.Equal("Pinch window opens: Tree 7", JsonDocument.Parse(_browser.Read(_bench.Web.Requests.Last().Body)).RootElement.GetProperty("title").GetString());
        // Left out it means normal (RFC 8030 section 5.3).
        Assert.All(_bench.Web.Requests, taken => Assert.Equal("normal", taken.Headers.GetValueOrDefault("Urgency", "normal")));
        // To the end of the window: the rest of today and three days more.
        Assert.All(_bench.Web.Requests, taken => Assert.Equal("309600", taken.Headers["TTL"]));
    }

    [Theory]
    [InlineData(StatusCodes.Status404NotFound)]
    [InlineData(StatusCodes.Status410Gone)]
    public async Task Subscription_ThatIsNoMore_IsDropped_AndANewOneBringsTheRoadBack(int status)
    {
        var id = await _bench.PushAsync(_browser);
        _bench.Web.Says(status);
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today));
        await _bench.DrainAsync();
        await _bench.PassAsync(Duration.FromHours(2));
        Assert.Single(_bench.Web.Requests);
        var road = await _bench.RoadAsync(id);
        Assert.Equal("gone", road.GetProperty("state").GetString());
        Assert.Equal($$"""{"kind":"push-gone","values":["{{status}}"]}""", road.GetProperty("lastErrorKind").GetRawText());
        Assert.Contains(status.ToString(System.Globalization.CultureInfo.InvariantCulture), road.GetProperty("lastError").GetString(), StringComparison.Ordinal);

        _bench.Web.Says(StatusCodes.Status201Created);
        var newcomer = new Browser();
        var body = new JsonObject { ["subscription"] = newcomer.Subscription(new Uri(_bench.Web.Address, "/push/second")) };
        using var answer = await _bench.Owner.PatchAsync($"{RoadBench.Root}/{id}", Bodies.Raw(body.ToJsonString()));
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        await _bench.DrainAsync();
        Assert.Contains("Old maple", newcomer.Read(_bench.Web.Requests.Last().Body), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Test_ReachesTheBrowser()
    {
        var id = await _bench.PushAsync(_browser);
        Assert.True((await _bench.TestAsync(id)).GetProperty("arrived").GetBoolean());
        Assert.Contains("It works", _browser.Read(Assert.Single(_bench.Web.Requests).Body), StringComparison.Ordinal);
        Assert.NotEqual(JsonValueKind.Null, (await _bench.RoadAsync(id)).GetProperty("lastSentAt").ValueKind);
    }

    /// <summary>In the language of the account; what the catalog says stays as it is.</summary>
    [Fact]
    public async Task German_IsWrittenToAnAccountThatReadsIt()
    {
        await _bench.SpeakAsync("de");
        var id = await _bench.PushAsync(_browser);
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today), RoadBench.Frost(2, "Young larch", _bench.Today, _bench.Today.PlusDays(1)));
        await _bench.DrainAsync();
        var frost = JsonDocument.Parse(_browser.Read(_bench.Web.Requests.Last().Body)).RootElement;
        Assert.Equal("Frost heute Nacht in Invented Garden: 2 Bäume", frost.GetProperty("title").GetString());
        Assert.Equal("Old maple, Young larch. Into the frost-free shed for the night.", frost.GetProperty("body").GetString());
        await _bench.PlanAsync(RoadBench.Window(3, "Elm", _bench.Today.PlusDays(2), _bench.Today.PlusDays(9)));
        await _bench.DrainAsync();
        Assert.Equal("voraussichtlich 17. April (Invented Garden)", JsonDocument.Parse(_browser.Read(_bench.Web.Requests.Last().Body)).RootElement.GetProperty("body").GetString());
        await _bench.TestAsync(id);
        Assert.Contains("Probe", _browser.Read(_bench.Web.Requests.Last().Body), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Keys_AreTheSameAfterARestart_AndForTheOwnerOfTheFolderAlone()
    {
        var key = (await _bench.Service.Anonymous().JsonAsync("/api/v1/push/key")).GetProperty("key").GetString()!;
        var file = Path.Combine(_bench.Service.Folder, "keys", "push.json");
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        var again = new Scheduler.Service.Roads.PushKeys(Microsoft.Extensions.Options.Options.Create(new Scheduler.Service.Storage.StorageOptions { Folder = _bench.Service.Folder }));
        Assert.Equal(key, again.PublicKey);
        Assert.Equal(65, System.Buffers.Text.Base64Url.DecodeFromChars(key).Length);
    }
}
