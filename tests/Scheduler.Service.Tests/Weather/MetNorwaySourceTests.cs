using NodaTime;
using Scheduler.Service.Tests.Weather.Support;
using WireMock;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;

namespace Scheduler.Service.Tests.Weather;

public sealed class MetNorwaySourceTests : IDisposable
{
    private readonly WeatherBench _bench = new(settings: new Dictionary<string, string?> { ["Weather:Sources"] = "met-norway" });
    private readonly List<IRequestMessage> _asked = [];
    private ResponseMessage _answer = Good();

    public MetNorwaySourceTests() =>
        _bench.Internet.Given(Request.Create().WithPath("/met/complete").UsingGet()).RespondWith(Response.Create().WithCallback(message =>
        {
            _asked.Add((IRequestMessage)message);
            return _answer;
        }));

    public void Dispose() => _bench.Dispose();

    private static ResponseMessage Good() => OpenMeteoFake.Text(
        200, MetNorwayFake.Body(new LocalDate(2026, 4, 20), 9, 11), "application/json",
        ("Expires", "Mon, 20 Apr 2026 10:31:44 GMT"), ("Last-Modified", "Mon, 20 Apr 2026 09:59:12 GMT"));

    private async Task<Guid> NewGardenAsync(string? timeZone = null)
    {
        var garden = await _bench.AddGardenAsync(latitude: 59.91273, longitude: 10.74609, timeZone: timeZone);
        await _bench.Weather.AttachAsync(garden);
        return garden;
    }

    [Fact]
    public async Task Forecast_Request_SaysWhoAsksAndHasFewDecimals()
    {
        await _bench.WorkAsync(await NewGardenAsync());
        var asked = Assert.Single(_asked);
        Assert.Equal("bench/1.0 bench@example.org", asked.Headers!["User-Agent"].Single());
        Assert.Equal("59.9", asked.GetParameter("lat")!.Single());
        Assert.Equal("10.7", asked.GetParameter("lon")!.Single());
        Assert.Contains("gzip", string.Join(",", asked.Headers["Accept-Encoding"]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Forecast_OnlySource_HasDaysWithoutHistoryAndIsReady()
    {
        var garden = await NewGardenAsync("Europe/Oslo");
        await _bench.WorkAsync(garden);
        var (days, status) = await _bench.Weather.DaysAsync(garden);
        // Days are cut at UTC+1; the last one has only its first hour.
        Assert.Equal([.. Enumerable.Range(0, 9).Select(new LocalDate(2026, 4, 20).PlusDays)], days.Select(day => day.Date));
        Assert.Equal(("ready", 0, 0), (status.State, status.YearsDone, status.YearsWanted));
        Assert.Equal(2.4, days[1].PrecipMm!.Value, 6);
    }

    [Fact]
    public async Task Forecast_BeforeItExpires_IsNotAskedAgain()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        _bench.Clock.AdvanceMinutes(31);
        await _bench.Weather.RefreshAsync(garden);
        Assert.Single(_asked);
    }

    [Fact]
    public async Task Forecast_NotModified_KeepsTheDaysAndSendsBackTheDateLetterByLetter()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        var before = (await _bench.Weather.DaysAsync(garden)).Days;
        _bench.Clock.AdvanceHours(1);
        _answer = OpenMeteoFake.Text(304, "", "application/json", ("Expires", "Mon, 20 Apr 2026 11:30:00 GMT"));

        Assert.False(await _bench.Weather.RefreshAsync(garden));

        Assert.Equal("Mon, 20 Apr 2026 09:59:12 GMT", string.Join(", ", _asked[^1].Headers!["If-Modified-Since"]));
        Assert.Equal(before, (await _bench.Weather.DaysAsync(garden)).Days);
        var cell = await _bench.CellOfAsync(garden);
        Assert.Equal((Instant.FromUtc(2026, 4, 20, 11, 30), null), (cell.FallbackExpiresAt, cell.Problem));
        Assert.Equal(_bench.Clock.GetCurrentInstant(), cell.RefreshedAt);
    }

    [Theory]
    [InlineData(429, 10)]
    [InlineData(403, 360)]
    public async Task Forecast_Throttled_StopsForAllPlaces(int status, int minutes)
    {
        _answer = OpenMeteoFake.Text(status, "", "text/html");
        await _bench.WorkAsync(await NewGardenAsync());
        var elsewhere = await _bench.AddGardenAsync(latitude: 60.5);
        await _bench.Weather.AttachAsync(elsewhere);
        var outcome = await _bench.WorkAsync(elsewhere);
        Assert.Single(_asked);
        Assert.Equal(_bench.Clock.GetCurrentInstant() + Duration.FromMinutes(minutes), outcome.RetryAt);
    }

    [Fact]
    public async Task Forecast_PlaceNotCovered_WaitsADay()
    {
        _answer = OpenMeteoFake.Text(422, "", "text/html");
        var outcome = await _bench.WorkAsync(await NewGardenAsync());
        Assert.Equal(_bench.Clock.GetCurrentInstant() + Duration.FromDays(1), outcome.RetryAt);
    }

    [Fact]
    public async Task Forecast_NoUserAgentSet_IsNeverAsked()
    {
        using var silent = new WeatherBench(settings: new Dictionary<string, string?>
        {
            ["Weather:Sources"] = "met-norway",
            ["Weather:MetNorway:UserAgent"] = "",
            ["Weather:MetNorway:Url"] = _bench.Internet.Url + "/met/complete"
        });
        var garden = await silent.AddGardenAsync();
        await silent.Weather.AttachAsync(garden);
        await silent.WorkAsync(garden);
        Assert.Empty(_asked);
        Assert.Contains("Weather:MetNorway:UserAgent", (await silent.Weather.DaysAsync(garden)).Status.Problem, StringComparison.Ordinal);
    }
}
