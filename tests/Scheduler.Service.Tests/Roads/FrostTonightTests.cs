using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.MainJob;
using Scheduler.Service.Tests.Roads.Support;
using Scheduler.Service.Tests.Support;
using Scheduler.Service.Tests.Weather.Support;
using WireMock.Server;

namespace Scheduler.Service.Tests.Roads;

/// <summary>
/// The whole way of a frost: a source that forecasts it, one refresh, and the feed and the outbox have it, for the trees it can hurt.
/// Garden, trees and weather are invented.
/// </summary>
public sealed class FrostTonightTests : IAsyncLifetime
{
    private static readonly LocalDate Today = new(2026, 4, 15);

    private readonly WireMockServer _internet = WireMockServer.Start();
    private OpenMeteoFake _source = null!;
    private ServiceFactory _service = null!;
    private HttpClient _owner = null!;
    private readonly Hands _hands = new();
    private WebEnd _hook = null!;

    public async Task InitializeAsync()
    {
        _source = new OpenMeteoFake(_internet, () => _hands.Today) { WarmerC = 3 };
        _hook = await WebEnd.StartAsync();
        _service = new ServiceFactory { Recorders = false, Replacing = services => services.AddSingleton<IClock>(_hands) }
            .With("Weather:Sources", "open-meteo").With("Weather:OpenMeteo:ForecastUrl", _internet.Url + "/v1/forecast")
            .With("Weather:OpenMeteo:ArchiveUrl", _internet.Url + "/v1/archive").With("Weather:RetryAfter", "PT0.01S")
            .With("Roads:AllowLoopback", "true");
        _owner = await _service.SignUpAsync();
    }

    public async Task DisposeAsync()
    {
        _owner.Dispose();
        await _service.DisposeAsync();
        await _hook.DisposeAsync();
        _internet.Stop();
        _internet.Dispose();
    }

    [Fact]
    public async Task FrostForecastForTonight_ReachesFeedAndOutboxWithinOneRefresh_ForTheTreesItCanHurt()
    {
        var garden = await _owner.MakeAsync("/api/v1/gardens", new JsonObject
        {
            ["name"] = "Invented Garden", ["latitude"] = 52.03, ["longitude"] = 13.41, ["elevationM"] = 60, ["timeZone"] = "Europe/Berlin",
            ["temperatureOffsetC"] = 0, ["waterAssured"] = true, ["frostFreeShelter"] = true
        });
        await TreeAsync(garden, "Leafy maple", "acer-palmatum", "open", 12);
        await TreeAsync(garden, "Framed maple", "acer-palmatum", "cold-frame", 12);
        await TreeAsync(garden, "Sleeping pine", "pinus-thunbergii", "open", 0);
        var feed = new Uri((await MadeAsync("/api/v1/feeds", """{"name":"All","content":"windows"}""")).GetProperty("url").GetString()!).PathAndQuery;
        var road = await MadeAsync("/api/v1/roads", $$"""{"kind":"webhook","url":"{{new Uri(_hook.Address, "/hook")}}","notices":["protection"]}""");
        var evenings = new Uri((await MadeAsync("/api/v1/feeds", """{"name":"Evenings","gathered":"technique","span":"opening","at":"17:00","techniques":["frost-protection"]}"""))
            .GetProperty("url").GetString()!).PathAndQuery;
        await RefreshAsync(garden);
        await _owner.PostAsync($"/api/v1/roads/{road.GetProperty("id").GetString()}/test", null);
        Assert.DoesNotContain("CATEGORIES:frost-protection", await _owner.GetStringAsync(feed), StringComparison.Ordinal);
        _hook.Requests.Clear();

        _source.Change = (body, _) => SetMinimum(body, Today.PlusDays(1), -1);
        await RefreshAsync(garden);

        var events = OwnerAtWork.Events(await _owner.GetStringAsync(feed)).Values.Select(Unfolded).Where(text => text.Contains("CATEGORIES:frost-protection", StringComparison.Ordinal)).ToList();
        var text = Assert.Single(events);
        Assert.Contains("Leafy maple", text, StringComparison.Ordinal);
        Assert.Contains("frost-free shed", text, StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:20260415", text, StringComparison.Ordinal);
        var gathered = Unfolded(Assert.Single(OwnerAtWork.Events(await _owner.GetStringAsync(evenings))).Value);
        Assert.Contains("Leafy maple", gathered, StringComparison.Ordinal);
        Assert.Contains("frost-free shed", gathered, StringComparison.Ordinal);
        Assert.DoesNotContain("Framed maple", gathered, StringComparison.Ordinal);
        Assert.DoesNotContain("Sleeping pine", gathered, StringComparison.Ordinal);
        Assert.Contains("DTSTART;TZID=Europe/Berlin:20260415T170000", gathered, StringComparison.Ordinal);
        // The service's own worker sends it.
        for (var wait = 0; wait < 150 && _hook.Requests.IsEmpty; wait++)
            await Task.Delay(100);
        var notice = JsonDocument.Parse(Assert.Single(_hook.Requests).Body).RootElement;
        Assert.Equal("notice.protection", notice.GetProperty("type").GetString());
        var data = notice.GetProperty("data");
        Assert.True(data.GetProperty("urgent").GetBoolean());
        Assert.Equal("2026-04-15", data.GetProperty("due").GetString());
        Assert.Equal("Leafy maple", data.GetProperty("window").GetProperty("treeName").GetString());
        Assert.Contains("frost-free shed", data.GetProperty("window").GetProperty("amount").GetString(), StringComparison.Ordinal);
        Assert.Contains("frost-trigger", data.GetProperty("window").GetProperty("reasons").EnumerateArray().Select(reason => reason.GetString()));

        // The next refresh with the same forecast says nothing new.
        await RefreshAsync(garden);
        await Task.Delay(1500);
        Assert.Single(_hook.Requests);
    }

    [Fact]
    public async Task FrostFirstForecastAfterMidnight_IsToldForTheSameDawnAndOnce()
    {
        var garden = await _owner.MakeAsync("/api/v1/gardens", new JsonObject
        {
            ["name"] = "Invented Garden", ["latitude"] = 52.03, ["longitude"] = 13.41, ["elevationM"] = 60, ["timeZone"] = "Europe/Berlin",
            ["temperatureOffsetC"] = 0, ["waterAssured"] = true, ["frostFreeShelter"] = true
        });
        await TreeAsync(garden, "Leafy maple", "acer-palmatum", "open", 12);
        await TreeAsync(garden, "Framed maple", "acer-palmatum", "cold-frame", 12);
        var road = await MadeAsync("/api/v1/roads", $$"""{"kind":"webhook","url":"{{new Uri(_hook.Address, "/hook")}}","notices":["protection"]}""");
        await RefreshAsync(garden);
        await _owner.PostAsync($"/api/v1/roads/{road.GetProperty("id").GetString()}/test", null);
        _hook.Requests.Clear();

        // Half past midnight of the 16th in Berlin; the cold of that dawn was in no forecast before.
        _hands.Now = Instant.FromUtc(2026, 4, 15, 22, 30);
        _source.Change = (body, _) => SetMinimum(body, Today.PlusDays(1), -1);
        await RefreshAsync(garden);

        for (var wait = 0; wait < 150 && _hook.Requests.IsEmpty; wait++)
            await Task.Delay(100);
        var data = JsonDocument.Parse(Assert.Single(_hook.Requests).Body).RootElement.GetProperty("data");
        Assert.True(data.GetProperty("urgent").GetBoolean());
        Assert.Equal("2026-04-15", data.GetProperty("due").GetString());
        Assert.Equal("Leafy maple", data.GetProperty("window").GetProperty("treeName").GetString());
        Assert.Contains("before dawn", data.GetProperty("text").GetString(), StringComparison.Ordinal);

        await RefreshAsync(garden);
        // By nine the night is over, and with it the job.
        _hands.Now = Instant.FromUtc(2026, 4, 16, 7, 0);
        _hands.Today = Today.PlusDays(1);
        await RefreshAsync(garden);
        await Task.Delay(1500);
        Assert.Single(_hook.Requests);
        var windows = JsonNode.Parse(await _owner.GetStringAsync($"/api/v1/gardens/{garden}/windows?limit=200"))!["items"]!.AsArray();
        Assert.Equal("missed", Assert.Single(windows, window => window!["technique"]!.GetValue<string>() == "frost-protection")!["state"]!.GetValue<string>());
    }

    [Fact]
    public async Task FrostToldInTheEvening_IsNotToldAgainAfterMidnight_TheNextNightIs()
    {
        var garden = await _owner.MakeAsync("/api/v1/gardens", new JsonObject
        {
            ["name"] = "Invented Garden", ["latitude"] = 52.03, ["longitude"] = 13.41, ["elevationM"] = 60, ["timeZone"] = "Europe/Berlin",
            ["temperatureOffsetC"] = 0, ["waterAssured"] = true, ["frostFreeShelter"] = true
        });
        await TreeAsync(garden, "Pine in candles", "pinus-thunbergii", "open", 31);
        await TreeAsync(garden, "Sleeping pine", "pinus-thunbergii", "open", 0, saysFlowers: false);
        var road = await MadeAsync("/api/v1/roads", $$"""{"kind":"webhook","url":"{{new Uri(_hook.Address, "/hook")}}","notices":["protection"]}""");
        await RefreshAsync(garden);
        await _owner.PostAsync($"/api/v1/roads/{road.GetProperty("id").GetString()}/test", null);
        _hook.Requests.Clear();
        _source.Change = (body, _) => SetMinimum(body, Today.PlusDays(1), -1);
        await RefreshAsync(garden);
        await TellsAsync("2026-04-15");

        // Half past midnight, the same forecast; then one that adds the night to come.
        _hands.Now = Instant.FromUtc(2026, 4, 15, 22, 30);
        await RefreshAsync(garden);
        await TellsAsync("2026-04-15");
        _source.Change = (body, _) =>
        {
            SetMinimum(body, Today.PlusDays(1), -1);
            SetMinimum(body, Today.PlusDays(2), -1);
        };
        await RefreshAsync(garden);
        await TellsAsync("2026-04-15", "2026-04-16");

        // At noon the night to come is tonight, and not told anew.
        _hands.Now = Instant.FromUtc(2026, 4, 16, 10, 0);
        _hands.Today = Today.PlusDays(1);
        await RefreshAsync(garden);
        await TellsAsync("2026-04-15", "2026-04-16");
        for (var wait = 0; wait < 150 && _hook.Requests.Count < 2; wait++)
            await Task.Delay(100);
        Assert.Equal(["2026-04-15", "2026-04-16"], _hook.Requests.Select(request => JsonDocument.Parse(request.Body).RootElement.GetProperty("data").GetProperty("due").GetString()));

        // What the outbox holds follows the refresh within its request.
        async Task TellsAsync(params string[] nights)
        {
            await using var connection = await _service.Services.GetRequiredService<Database>().OpenAsync();
            var rows = await connection.QueryAsync<(string Due, string Body)>(
                "SELECT n.due, w.body FROM deliveries d JOIN notices n ON n.id = d.notice_id JOIN windows w ON w.id = n.window_id ORDER BY n.due, n.id");
            Assert.Equal(nights.Select(night => $"{night} Pine in candles"), rows.Select(row => $"{row.Due} {JsonNode.Parse(row.Body)!["treeName"]}"));
        }
    }

    private async Task TreeAsync(string garden, string name, string species, string placement, int bbch, bool saysFlowers = true)
    {
        var tree = await _owner.MakeAsync($"/api/v1/gardens/{garden}/trees", new JsonObject
        {
            ["name"] = name, ["species"] = species, ["stage"] = "refinement", ["goals"] = new JsonArray("slender"), ["size"] = "m", ["health"] = "sound",
            ["placement"] = placement, ["rootWorkKnown"] = true, ["repottedOn"] = "2025-03-20"
        });
        await _owner.MakeAsync($"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = "2026-04-15", ["bbch"] = bbch });
        // Flowers are a matter of their own; none of these trees shows any.
        if (saysFlowers)
            await _owner.MakeAsync($"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = "2026-04-15", ["bbch"] = 51, ["organ"] = "flower-buds" });
    }

    private async Task RefreshAsync(string garden)
    {
        using var answer = await _owner.PostAsync($"/api/v1/gardens/{garden}/refresh", null);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    private async Task<JsonElement> MadeAsync(string path, string body)
    {
        using var answer = await _owner.PostAsync(path, Bodies.Raw(body));
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, text);
        return JsonDocument.Parse(text).RootElement;
    }

    private static void SetMinimum(JsonObject body, LocalDate date, double minC)
    {
        var daily = body["daily"]!;
        var days = daily["time"]!.AsArray().Select(day => day!.GetValue<string>()).ToList();
        if (days.IndexOf(LocalDatePattern.Iso.Format(date)) is >= 0 and var index && daily["temperature_2m_min"] is JsonArray minima)
            minima[index] = minC;
    }

    private static string Unfolded(string text) => text.Replace("\r\n ", "", StringComparison.Ordinal);

    private sealed class Hands : IClock
    {
        public Instant Now { get; set; } = Instant.FromUtc(2026, 4, 15, 12, 0);

        public LocalDate Today { get; set; } = FrostTonightTests.Today;

        public Instant GetCurrentInstant() => Now;
    }
}
