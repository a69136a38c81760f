using System.Net;
using System.Net.Http.Headers;
using System.Security.Claims;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using NodaTime;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

/// <summary>The addresses of the weather over HTTP, with the account taken from a header instead of an access key.</summary>
public sealed class WeatherEndpointsTests : IAsyncLifetime
{
    private readonly WeatherBench _bench = new();
    private readonly OpenMeteoFake _upstream;
    private readonly Guid _owner = Guid.NewGuid();
    private readonly List<WebApplication> _apps = [];
    private Guid _garden;
    private HttpClient _client = null!;

    public WeatherEndpointsTests() => _upstream = new OpenMeteoFake(_bench.Internet, () => _bench.Today);

    public async Task InitializeAsync()
    {
        _client = await StartAsync([]);
        _garden = await _bench.AddGardenAsync(timeZone: "Europe/Berlin", account: _owner);
        await _bench.Weather.AttachAsync(_garden);
        await _bench.WorkAsync(_garden);
        _bench.Planner.Planned.Clear();
    }

    public async Task DisposeAsync()
    {
        foreach (var app in _apps)
            await app.DisposeAsync();
        _bench.Dispose();
    }

    private async Task<HttpClient> StartAsync(Dictionary<string, string?> settings)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseTestServer();
        builder.Logging.ClearProviders();
        settings["Weather:OpenMeteo:ForecastUrl"] = _bench.Internet.Url + "/v1/forecast";
        settings["Weather:OpenMeteo:ArchiveUrl"] = _bench.Internet.Url + "/v1/archive";
        settings["Weather:OpenMeteo:GeocodingUrl"] = _bench.Internet.Url + "/v1/search";
        settings["Weather:RetryAfter"] = "PT0.01S";
        builder.Configuration.AddInMemoryCollection(settings);
        builder.Services.ConfigureHttpJsonOptions(json => Json.Configure(json.SerializerOptions));
        builder.Services.Configure<StorageOptions>(storage => storage.Folder = _bench.Folder);
        builder.Services.AddSingleton<Database>();
        builder.Services.AddSingleton<IClock>(_bench.Clock);
        builder.Services.AddSingleton<IGardenPlanner>(_bench.Planner);
        builder.Services.AddWeather(builder.Configuration);
        // The tests say themselves when work is done.
        foreach (var hosted in builder.Services.Where(service => service.ImplementationType == typeof(WeatherWorker)).ToList())
            builder.Services.Remove(hosted);
        var app = builder.Build();
        app.Use((context, next) =>
        {
            context.User = new ClaimsPrincipal(new ClaimsIdentity(
                [new Claim("account", context.Request.Headers["X-Account"].ToString()), new Claim("key", Guid.NewGuid().ToString())]));
            return next();
        });
        app.MapWeather();
        await app.StartAsync();
        _apps.Add(app);
        var client = app.GetTestClient();
        client.DefaultRequestHeaders.Add("X-Account", _owner.ToString());
        return client;
    }

    private static async Task<(HttpStatusCode Status, JsonElement Body)> ReadAsync(HttpResponseMessage response)
    {
        if ((int)response.StatusCode >= 400)
            Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        return (response.StatusCode, JsonDocument.Parse(await response.Content.ReadAsStringAsync()).RootElement);
    }

    private async Task<(HttpStatusCode Status, JsonElement Body)> PutAsync(string body, string contentType = "text/csv")
    {
        using var content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
        content.Headers.ContentType = MediaTypeHeaderValue.Parse(contentType);
        return await ReadAsync(await _client.PutAsync($"/gardens/{_garden}/readings", content));
    }

    [Fact]
    public async Task Weather_Span_ShowsDaysWithKindAndSource()
    {
        var (status, body) = await ReadAsync(await _client.GetAsync($"/gardens/{_garden}/weather?from=2026-04-08&to=2026-04-21"));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal("2026-04-20T10:00:00Z", body.GetProperty("asOf").GetString());
        Assert.Equal("ready", body.GetProperty("state").GetString());
        Assert.Equal(30, body.GetProperty("yearsDone").GetInt32());
        var days = body.GetProperty("days").EnumerateArray().ToList();
        Assert.Equal(14, days.Count);
        string Shown(int index) => string.Join(" ", new[] { "date", "kind", "source" }.Select(name => days[index].GetProperty(name).GetString()));
        Assert.Equal("2026-04-08 observed open-meteo-archive", Shown(0));
        Assert.Equal("2026-04-19 observed open-meteo", Shown(11));
        Assert.Equal("2026-04-21 forecast open-meteo", Shown(13));
        Assert.Equal(OpenMeteoFake.MinC(new LocalDate(2026, 4, 8)), days[0].GetProperty("tminC").GetDouble());
        Assert.Equal(8 % 3, days[0].GetProperty("precipMm").GetDouble());
        Assert.All(body.GetProperty("sources").EnumerateArray(), use => Assert.NotEmpty(use.GetProperty("attribution").GetString()!));
    }

    [Fact]
    public async Task Weather_BothDatesWrong_NamesBoth()
    {
        var (status, body) = await ReadAsync(await _client.GetAsync($"/gardens/{_garden}/weather?from=soon&to=2026-02-30"));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Equal(["from", "to"], body.GetProperty("errors").EnumerateObject().Select(field => field.Name));
    }

    [Theory]
    [InlineData("GET", "weather")]
    [InlineData("PUT", "readings")]
    [InlineData("POST", "refresh")]
    public async Task Garden_OfSomebodyElse_AnswersLikeNone(string method, string path)
    {
        var strangers = await _bench.AddGardenAsync();
        async Task<string> Answer(Guid garden)
        {
            using var request = new HttpRequestMessage(new HttpMethod(method), $"/gardens/{garden}/{path}");
            var response = await _client.SendAsync(request);
            Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
            return await response.Content.ReadAsStringAsync();
        }
        Assert.Equal(await Answer(Guid.NewGuid()), await Answer(strangers));
    }

    [Fact]
    public async Task Readings_SomeLinesFaulty_KeepsTheGoodNamesTheBadAndPlansAnew()
    {
        var (status, body) = await PutAsync("date,tmin_c,tmax_c\n2026-04-10,-3,21\n2026-04-11,9,1\n2026-04-10,-4,20\n");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal("""{"accepted":2,"rejected":[{"line":3,"reason":"The minimum is above the maximum."}]}""", body.GetRawText());
        Assert.Equal([_garden], _bench.Planner.Planned);

        var (_, weather) = await ReadAsync(await _client.GetAsync($"/gardens/{_garden}/weather?from=2026-04-10&to=2026-04-10"));
        var day = weather.GetProperty("days")[0];
        Assert.Equal(("reading", -4, 20), (day.GetProperty("kind").GetString(), day.GetProperty("tminC").GetDouble(), day.GetProperty("tmaxC").GetDouble()));
        Assert.Equal(OpenMeteoFake.MinC(new LocalDate(2026, 4, 10)), day.GetProperty("modelTminC").GetDouble());
    }

    [Fact]
    public async Task Readings_Json_AreTakenAlike()
    {
        var (status, body) = await PutAsync("""[{"date":"2026-04-10","tminC":-3,"tmaxC":21},{"date":"2026-05-01","tminC":1,"tmaxC":2}]""", "application/json");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal("""{"accepted":1,"rejected":[{"line":2,"reason":"The date is in the future."}]}""", body.GetRawText());
    }

    [Theory]
    [InlineData("date,low,high\n2026-04-10,1,2\n", "text/csv", HttpStatusCode.BadRequest)]
    [InlineData("{}", "application/json", HttpStatusCode.BadRequest)]
    [InlineData("date,tmin_c,tmax_c\n", "text/plain", HttpStatusCode.UnsupportedMediaType)]
    public async Task Readings_BodyWrongAsAWhole_IsAProblemAndChangesNothing(string text, string contentType, HttpStatusCode expected)
    {
        Assert.Equal(expected, (await PutAsync(text, contentType)).Status);
        Assert.Empty(_bench.Planner.Planned);
    }

    [Fact]
    public async Task Readings_TooLarge_AreRefused() =>
        Assert.Equal(
            HttpStatusCode.RequestEntityTooLarge, (await PutAsync("date,tmin_c,tmax_c\n" + new string(' ', 2 * 1024 * 1024))).Status);

    [Fact]
    public async Task Refresh_WarmerForecast_SaysThatItChanged()
    {
        _upstream.WarmerC = 3;
        var (status, body) = await ReadAsync(await _client.PostAsync($"/gardens/{_garden}/refresh", null));
        Assert.Equal((HttpStatusCode.OK, true), (status, body.GetProperty("changed").GetBoolean()));
        Assert.Equal([_garden], _bench.Planner.Planned);
    }

    [Fact]
    public async Task Places_SourceDown_IsAProblemDocument() =>
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await PlacesOfTroubleAsync()).Status);

    [Fact]
    public async Task Places_RecordedOnly_AreTheInventedOnes()
    {
        var offline = await StartAsync(new Dictionary<string, string?> { ["Weather:Sources"] = "recorded" });
        var (_, body) = await ReadAsync(await offline.GetAsync("/places?q=hollow"));
        var place = Assert.Single(body.GetProperty("items").EnumerateArray());
        Assert.Equal(("Elmhollow", 52), (place.GetProperty("name").GetString(), place.GetProperty("latitude").GetDouble()));
        Assert.Equal(JsonValueKind.Null, body.GetProperty("next").ValueKind);
    }

    [Fact]
    public async Task Places_NothingAsked_NamesTheField()
    {
        var (status, body) = await ReadAsync(await _client.GetAsync("/places"));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.True(body.GetProperty("errors").TryGetProperty("q", out _));
    }

    private async Task<(HttpStatusCode Status, JsonElement Body)> PlacesOfTroubleAsync()
    {
        _bench.Internet.Given(WireMock.RequestBuilders.Request.Create().WithPath("/v1/search"))
            .RespondWith(WireMock.ResponseBuilders.Response.Create().WithCallback(_ => OpenMeteoFake.Text(502, "<html></html>", "text/html")));
        return await ReadAsync(await _client.GetAsync("/places?q=somewhere"));
    }
}
