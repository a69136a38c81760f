using NodaTime;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;
using WireMock;

namespace Scheduler.Service.Tests.Weather;

/// <summary>What can go wrong on the way, and what is asked of whom how often.</summary>
public sealed class OpenMeteoSourceTests : IDisposable
{
    private readonly WeatherBench _bench = new();
    private readonly OpenMeteoFake _upstream;
    private readonly WeatherCell _cell = new()
    {
        Key = "52.0,13.4",
        Latitude = 52,
        Longitude = 13.4,
        UtcOffsetHours = 1,
        WantedFrom = new LocalDate(1995, 9, 1)
    };

    public OpenMeteoSourceTests() => _upstream = new OpenMeteoFake(_bench.Internet, () => _bench.Today);

    public void Dispose() => _bench.Dispose();

    private async Task<WeatherAnswer.Failed> FailsAsync(ResponseMessage answer)
    {
        _upstream.Instead = _ => answer;
        return Assert.IsType<WeatherAnswer.Failed>(await _bench.OpenMeteo.ForecastAsync(_cell, 7, default));
    }

    [Theory]
    // At 10:00:00 UTC on 20 April; texts as in the server's published source. Five seconds are added for clocks that differ.
    [InlineData("Minutely API request limit exceeded. Please try again in one minute.", "2026-04-20T10:01:05Z")]
    [InlineData("Hourly API request limit exceeded. Please try again in the next hour.", "2026-04-20T11:00:05Z")]
    [InlineData("Daily API request limit exceeded. Please try again tomorrow.", "2026-04-21T00:00:05Z")]
    [InlineData("Too many concurrent requests", "2026-04-20T10:01:05Z")]
    public async Task Forecast_CallLimitReached_IsNotAskedAgainBeforeTheWindowEnds(string reason, string until)
    {
        var body = $$"""{"error":true,"reason":"{{reason}}"}""";
        var failed = await FailsAsync(OpenMeteoFake.Json(429, body));
        var expected = NodaTime.Text.InstantPattern.ExtendedIso.Parse(until).Value;
        Assert.Equal(expected, failed.RetryAt);
        Assert.Single(_upstream.Asked);

        _upstream.Instead = _ => null;
        _bench.Clock.Reset(expected - Duration.FromSeconds(1));
        Assert.IsType<WeatherAnswer.Failed>(await _bench.OpenMeteo.ForecastAsync(_cell, 7, default));
        Assert.Single(_upstream.Asked);

        _bench.Clock.Reset(expected);
        Assert.IsType<WeatherAnswer.Got>(await _bench.OpenMeteo.ForecastAsync(_cell, 7, default));
    }

    [Fact]
    public async Task Forecast_RetryAfterIsLater_CountsInstead()
    {
        var failed = await FailsAsync(OpenMeteoFake.Text(
            429, """{"error":true,"reason":"Minutely API request limit exceeded."}""", "application/json", ("Retry-After", "600")));
        Assert.Equal(_bench.Clock.GetCurrentInstant() + Duration.FromMinutes(10), failed.RetryAt);
    }

    [Fact]
    public async Task Forecast_BadParameter_IsAskedOnceAndTheReasonShown()
    {
        var failed = await FailsAsync(OpenMeteoFake.Json(400, """{"reason":"Forecast days is invalid. Allowed range 0 to 16. Given 17.","error":true}"""));
        Assert.Contains("Given 17.", failed.Reason, StringComparison.Ordinal);
        Assert.True(failed.RetryAt > _bench.Clock.GetCurrentInstant() + Duration.FromHours(1));
        Assert.Single(_upstream.Asked);
    }

    [Theory]
    [InlineData(500)]
    [InlineData(502)]
    [InlineData(503)]
    [InlineData(504)]
    public async Task Forecast_ServerInTrouble_IsTriedThreeTimesAndEachCounts(int status)
    {
        await FailsAsync(OpenMeteoFake.Text(status, "<html>Bad Gateway</html>", "text/html"));
        Assert.Equal(3, _upstream.Asked.Count);
        Assert.Equal(3, await WeightAsync("day"));
    }

    [Fact]
    public async Task Forecast_TroubleThatPasses_IsNotNoticed()
    {
        var tries = 0;
        _upstream.Instead = _ => ++tries < 3 ? OpenMeteoFake.Text(503, "", "text/plain") : null;
        Assert.Equal(23, Assert.IsType<WeatherAnswer.Got>(await _bench.OpenMeteo.ForecastAsync(_cell, 7, default)).Days.Count);
    }

    [Theory]
    [InlineData("application/json", """{"daily":{"time":["2026-04-13"],"temperature_2m_max":[nan]}}""", "no valid JSON")]
    [InlineData("application/json", """{"daily":{"time":["2026-04-13"]Unexpected error while streaming data: timeout""", "no valid JSON")]
    [InlineData("application/json", "", "no valid JSON")]
    [InlineData("application/json", "[]", "not about one place")]
    [InlineData("application/json", """{"error":true,"reason":"Something went wrong."}""", "Something went wrong.")]
    [InlineData("text/html", "<html>Sign in to the hotel network</html>", "no JSON")]
    public async Task Forecast_Status200ButNoAnswer_IsRefused(string contentType, string body, string why)
    {
        var failed = await FailsAsync(OpenMeteoFake.Text(200, body, contentType));
        Assert.Contains(why, failed.Reason, StringComparison.Ordinal);
        Assert.Single(_upstream.Asked);
    }

    [Fact]
    public async Task Forecast_PointsToAnotherHost_IsNotFollowed()
    {
        var failed = await FailsAsync(OpenMeteoFake.Text(302, "", "text/plain", ("Location", "http://other.example.org/v1/forecast")));
        Assert.Contains("another address", failed.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Forecast_EndlessBody_IsCutOff()
    {
        var failed = await FailsAsync(OpenMeteoFake.Json(200, new string(' ', 21 * 1024 * 1024)));
        Assert.Contains("too large", failed.Reason, StringComparison.Ordinal);
        Assert.Single(_upstream.Asked);
    }

    [Fact]
    public async Task Forecast_FailingForLong_IsLeftAlone()
    {
        for (var call = 0; call < 3; call++)
            await FailsAsync(OpenMeteoFake.Text(500, "", "text/plain"));
        var asked = _upstream.Asked.Count;
        var failed = await FailsAsync(OpenMeteoFake.Text(500, "", "text/plain"));
        Assert.Contains("left alone", failed.Reason, StringComparison.Ordinal);
        Assert.Equal(asked, _upstream.Asked.Count);
    }

    [Fact]
    public async Task Forecast_NobodyListens_FailsWithoutBlame()
    {
        _bench.Internet.Stop();
        var failed = Assert.IsType<WeatherAnswer.Failed>(await _bench.OpenMeteo.ForecastAsync(_cell, 7, default));
        Assert.Contains("cannot be reached", failed.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Requests_ManyAtOnce_AreMadeOneAfterTheOther()
    {
        int running = 0, most = 0;
        _upstream.Instead = _ =>
        {
            most = Math.Max(most, Interlocked.Increment(ref running));
            Thread.Sleep(20);
            Interlocked.Decrement(ref running);
            return null;
        };
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => _bench.OpenMeteo.ForecastAsync(_cell, 7, default)));
        Assert.Equal(1, most);
        Assert.Equal(8, _upstream.Asked.Count);
    }

    [Fact]
    public async Task History_ThirtyYears_WeighsWhatTheSourceCounts()
    {
        // Three variables over 1826 days: 3 / 10 x 1826 / 14 = 39.13.
        await _bench.OpenMeteo.HistoryAsync(_cell, new LocalDate(2016, 1, 1), new LocalDate(2020, 12, 30), false, CallPurpose.Backfill, default);
        Assert.Equal(39.13, await WeightAsync("day-backfill"), 2);
    }

    private async Task<double> WeightAsync(string period)
    {
        await using var connection = await _bench.Database.OpenAsync();
        return await Dapper.SqlMapper.ExecuteScalarAsync<double>(
            connection, "SELECT weight FROM call_budget WHERE source = 'open-meteo' AND period = @period", new { period });
    }
}
