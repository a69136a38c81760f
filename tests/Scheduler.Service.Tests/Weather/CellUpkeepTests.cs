using System.Text.Json.Nodes;
using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Gardens;
using Scheduler.Service.Tests.Weather.Support;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;

namespace Scheduler.Service.Tests.Weather;

public sealed class CellUpkeepTests : IDisposable
{
    private readonly WeatherBench _bench = new();
    private readonly OpenMeteoFake _upstream;

    public CellUpkeepTests() => _upstream = new OpenMeteoFake(_bench.Internet, () => _bench.Today);

    public void Dispose() => _bench.Dispose();

    private async Task<Guid> NewGardenAsync(double? elevationM = null)
    {
        var garden = await _bench.AddGardenAsync(elevationM: elevationM);
        await _bench.Weather.AttachAsync(garden);
        return garden;
    }

    [Fact]
    public async Task NewCell_SourceAnswers_HasForecastSeasonAndThirtyYears()
    {
        var garden = await NewGardenAsync();
        Assert.Null((await _bench.WorkAsync(garden)).Problem);

        var (days, status) = await _bench.Weather.DaysAsync(garden);
        // 31 seasons before the one that began on 1 September 2025, so that 30 winters are whole, to the last of 16 forecast days.
        Assert.Equal(new LocalDate(1994, 9, 1), days[0].Date);
        Assert.NotNull(GardenAnswers.ZoneOf(days, Hemisphere.North));
        Assert.Equal(new LocalDate(2026, 5, 5), days[^1].Date);
        Assert.Equal(Period.DaysBetween(days[0].Date, days[^1].Date) + 1, days.Count);
        Assert.Equal(("ready", 30, 30, null), (status.State, status.YearsDone, status.YearsWanted, status.Problem));
        Assert.Equal(DayKind.Observed, days.Single(day => day.Date == new LocalDate(2026, 4, 19)).Kind);
        Assert.Equal(DayKind.Forecast, days.Single(day => day.Date == new LocalDate(2026, 4, 20)).Kind);
        Assert.Equal(OpenMeteoFake.MinC(new LocalDate(2010, 2, 3)), days.Single(day => day.Date == new LocalDate(2010, 2, 3)).MinC);
        Assert.Contains(status.Sources, use => use.Attribution.Contains("Open-Meteo.com", StringComparison.Ordinal));
    }

    [Fact]
    public async Task NewCell_WhileItFills_SaysHowFarItIs()
    {
        var garden = await NewGardenAsync();
        var key = (await _bench.CellOfAsync(garden)).Key;
        var progress = new List<(string, int)>();
        for (var step = 0; step < 8; step++)
        {
            await _bench.Upkeep.StepAsync(key, default);
            var status = (await _bench.Weather.DaysAsync(garden)).Status;
            progress.Add((status.State, status.YearsDone));
        }
        Assert.Equal(
            [("backfilling", 0), ("backfilling", 0), ("backfilling", 5), ("backfilling", 10), ("backfilling", 15), ("backfilling", 20),
                ("backfilling", 25), ("ready", 30)],
            progress);
    }

    [Fact]
    public async Task Requests_OfANewCell_AskOnceForTheZoneAndThenByAFixedOffset()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);

        Assert.Equal("Europe/Berlin", (await _bench.Store.GardenAsync(garden, default))!.TimeZone);
        Assert.Single(_upstream.Asked, url => url.Contains("timezone=auto", StringComparison.Ordinal));
        // In April the clocks of Berlin are two hours ahead, but its days are always cut one hour ahead.
        Assert.All(
            _upstream.Asked.Where(url => !url.Contains("timezone=auto", StringComparison.Ordinal)),
            url => Assert.Contains("timezone=Etc", url, StringComparison.Ordinal));
        Assert.Equal(1, (await _bench.CellOfAsync(garden)).UtcOffsetHours);
        Assert.Contains(_upstream.Asked, url => url.Contains("past_days=7&forecast_days=16", StringComparison.Ordinal));
        Assert.All(
            _upstream.Asked.Where(url => url.Contains("/v1/archive", StringComparison.Ordinal)),
            url => Assert.Contains("models=era5_seamless", url, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Refresh_ServerIgnoresTheZone_IsRefusedBecauseItsDaysAreOthers()
    {
        _upstream.Change = (body, _) => body["utc_offset_seconds"] = 7200;
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        var (days, status) = await _bench.Weather.DaysAsync(garden);
        Assert.Empty(days);
        Assert.Contains("offset", status.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refresh_AfterAnOutage_AsksForTheDaysMissed()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        _bench.Clock.Advance(Duration.FromDays(20));
        await _bench.WorkAsync(garden);
        Assert.Contains(_upstream.Asked, url => url.Contains("past_days=27&", StringComparison.Ordinal));
        _bench.Clock.Advance(Duration.FromDays(200));
        await _bench.WorkAsync(garden);
        Assert.Contains(_upstream.Asked, url => url.Contains("past_days=92&", StringComparison.Ordinal));
        // What lies further back comes from the archive, so that no day is missing.
        var days = (await _bench.Weather.DaysAsync(garden)).Days;
        Assert.Equal(Period.DaysBetween(days[0].Date, days[^1].Date) + 1, days.Count);
    }

    [Fact]
    public async Task Outage_AfterGoodDays_KeepsThemAllAndSaysSo()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        var before = (await _bench.Weather.DaysAsync(garden)).Days;
        _upstream.Instead = _ => OpenMeteoFake.Text(502, "<html><body>Bad Gateway</body></html>", "text/html");
        _bench.Clock.Advance(Duration.FromHours(40));

        Assert.False(await _bench.Weather.RefreshAsync(garden));

        var (days, status) = await _bench.Weather.DaysAsync(garden);
        Assert.Equal(before, days);
        Assert.Equal("stale", status.State);
        Assert.Contains("502", status.Problem, StringComparison.Ordinal);
        Assert.Equal(Instant.FromUtc(2026, 4, 20, 10, 0), status.AsOf);
    }

    [Fact]
    public async Task Refresh_WarmerForecast_ChangesDaysAndPlansAllGardensOfTheCellAnew()
    {
        var garden = await NewGardenAsync();
        var neighbor = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        _bench.Planner.Planned.Clear();

        Assert.False(await _bench.Weather.RefreshAsync(garden));
        Assert.Empty(_bench.Planner.Planned);

        _upstream.WarmerC = 3;
        Assert.True(await _bench.Weather.RefreshAsync(garden));
        Assert.Equal(new[] { garden, neighbor }.Order(), _bench.Planner.Planned.Order());
        var tomorrow = (await _bench.Weather.DaysAsync(neighbor)).Days.Single(day => day.Date == new LocalDate(2026, 4, 21));
        Assert.Equal(OpenMeteoFake.MinC(tomorrow.Date) + 3, tomorrow.MinC, 6);
    }

    [Fact]
    public async Task Refresh_BadDays_LeaveTheGoodOnesAsTheyAre()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        var before = (await _bench.Weather.DaysAsync(garden)).Days;
        _upstream.WarmerC = 0.5;
        _upstream.Change = (body, _) =>
        {
            Set(body, "temperature_2m_mean", 7, null);
            Set(body, "temperature_2m_min", 8, 20);
            Set(body, "temperature_2m_max", 9, 71);
            Set(body, "temperature_2m_mean", 10, 40);
            foreach (var variable in new[] { "temperature_2m_min", "temperature_2m_max", "temperature_2m_mean" })
                Set(body, variable, 11, 45);
        };
        Assert.True(await _bench.Weather.RefreshAsync(garden));

        var (after, status) = await _bench.Weather.DaysAsync(garden);
        var first = _bench.Today.PlusDays(-7);
        for (var index = 0; index < 23; index++)
        {
            var date = first.PlusDays(index);
            var (old, now) = (before.Single(day => day.Date == date), after.Single(day => day.Date == date));
            // The first two are known from the archive already, which the forecast source does not outrank.
            Assert.Equal(index is <= 1 or (>= 7 and <= 11) ? old.MinC : old.MinC + 0.5, now.MinC, 6);
        }
        Assert.Contains("5 faulty days", status.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Finalize_AWeekLater_MakesSettledDaysFinalAndRefetchesNoFinalDay()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        var date = _bench.Today.PlusDays(-10);
        var days = (Scheduler.Service.Weather.DayStore)_bench.Services.GetService(typeof(Scheduler.Service.Weather.DayStore))!;
        var key = (await _bench.CellOfAsync(garden)).Key;
        Assert.False((await days.ReadAsync(key, date, date, default))[0].Final);

        _bench.Clock.Advance(Duration.FromDays(7));
        await _bench.WorkAsync(garden);
        Assert.True((await days.ReadAsync(key, date, date, default))[0].Final);

        _upstream.WarmerC = 2;
        _bench.Clock.Advance(Duration.FromDays(7));
        await _bench.WorkAsync(garden);
        Assert.Equal(OpenMeteoFake.MinC(date), (await days.ReadAsync(key, date, date, default))[0].MinC);
    }

    [Fact]
    public async Task Fallback_FirstSourceDown_FillsInAndTheFirstTakesOverAgain()
    {
        var garden = await NewGardenAsync();
        await _bench.WorkAsync(garden);
        _upstream.Instead = _ => OpenMeteoFake.Text(503, "overloaded", "text/plain");
        _bench.Internet.Given(Request.Create().WithPath("/met/complete"))
            .RespondWith(Response.Create().WithCallback(_ => OpenMeteoFake.Json(200, MetNorwayFake.Body(_bench.Today.PlusDays(1), 6, 12))));
        _bench.Clock.Advance(Duration.FromHours(30));

        Assert.True(await _bench.Weather.RefreshAsync(garden));
        var (days, status) = await _bench.Weather.DaysAsync(garden);
        Assert.Equal(12, days.Single(day => day.Date == _bench.Today.PlusDays(2)).MinC);
        Assert.Contains(status.Sources, use => use.Attribution.Contains("MET Norway", StringComparison.Ordinal));
        Assert.Contains("503", status.Problem, StringComparison.Ordinal);

        _upstream.Instead = _ => null;
        Assert.True(await _bench.Weather.RefreshAsync(garden));
        (days, status) = await _bench.Weather.DaysAsync(garden);
        Assert.Equal(OpenMeteoFake.MinC(_bench.Today.PlusDays(2)), days.Single(day => day.Date == _bench.Today.PlusDays(2)).MinC);
        Assert.Null(status.Problem);
    }

    private static void Set(JsonObject body, string variable, int index, double? value) => body["daily"]![variable]![index] = value;
}
