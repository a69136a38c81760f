using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class GardenWeatherTests : IDisposable
{
    private readonly WeatherBench _bench = new();
    private readonly OpenMeteoFake _upstream;

    public GardenWeatherTests() => _upstream = new OpenMeteoFake(_bench.Internet, () => _bench.Today);

    public void Dispose() => _bench.Dispose();

    private async Task<Guid> AttachedAsync(double? elevationM = null, string? timeZone = null, double latitude = 52.03)
    {
        var garden = await _bench.AddGardenAsync(latitude, elevationM: elevationM, timeZone: timeZone);
        await _bench.Weather.AttachAsync(garden);
        return garden;
    }

    private async Task<DayWeather> DayAsync(Guid garden, LocalDate date) =>
        (await _bench.Weather.DaysAsync(garden)).Days.Single(day => day.Date == date);

    [Fact]
    public async Task Attach_ZoneAndHeightUnknown_AreFilledInAndOwnersStay()
    {
        var unknown = await _bench.Store.GardenAsync(await AttachedAsync(), default);
        Assert.Equal(("Europe/Berlin", 60), (unknown!.TimeZone, unknown.ElevationM));
        var known = await _bench.Store.GardenAsync(await AttachedAsync(150, "Europe/Warsaw"), default);
        Assert.Equal(("Europe/Warsaw", 150), (known!.TimeZone, known.ElevationM));
    }

    [Fact]
    public async Task Attach_NeighborsOfOneCell_ShareItAndItsCalls()
    {
        var first = await AttachedAsync();
        await _bench.WorkAsync(first);
        var asked = _upstream.Asked.Count;
        var second = await AttachedAsync(latitude: 51.97);
        await _bench.WorkAsync(second);
        Assert.Equal(asked, _upstream.Asked.Count);
        Assert.Equal((await _bench.CellOfAsync(first)).Key, (await _bench.CellOfAsync(second)).Key);
        Assert.Equal("ready", (await _bench.Weather.DaysAsync(second)).Status.State);
    }

    [Fact]
    public async Task Attach_MuchHigherThanTheCell_HasASmallCellOfItsOwn()
    {
        var valley = await _bench.CellOfAsync(await AttachedAsync(60));
        var hill = await _bench.CellOfAsync(await AttachedAsync(461));
        Assert.Equal(("52.0,13.4", "52.04,13.42"), (valley.Key, hill.Key));
    }

    [Fact]
    public async Task Attach_SourceDown_MakesTheGardenAllTheSame()
    {
        _bench.Internet.Stop();
        var garden = await AttachedAsync();
        var (days, status) = await _bench.Weather.DaysAsync(garden);
        Assert.Equal((0, "none"), (days.Count, status.State));
        Assert.NotNull((await _bench.Store.GardenAsync(garden, default))!.CellKey);
    }

    [Fact]
    public async Task Attach_NoSources_LivesOnReadingsAlone()
    {
        using var alone = new WeatherBench(settings: new Dictionary<string, string?> { ["Weather:Sources"] = "" });
        var garden = await alone.AddGardenAsync(longitude: -76.3);
        await alone.Weather.AttachAsync(garden);
        Assert.Equal("none", (await alone.Weather.DaysAsync(garden)).Status.State);
        Assert.Equal("Etc/GMT+5", (await alone.Store.GardenAsync(garden, default))!.TimeZone);

        await alone.Services.GetRequiredService<ReadingStore>()
            .SaveAsync(garden, [new DailyTemperature(new LocalDate(1990, 3, 1), 2, 11)], default);
        var (days, status) = await alone.Weather.DaysAsync(garden);
        Assert.Equal(new DayWeather(new LocalDate(1990, 3, 1), 2, 11, null, null, null, DayKind.Reading), Assert.Single(days));
        Assert.Equal(("ready", "reading"), (status.State, status.Sources.Single().Source));
    }

    [Fact]
    public async Task Days_GardenHigherThanTheCell_AreColder()
    {
        // 160 m against 60 m: 100 x 0.0065 = 0.65 °C (standard atmosphere).
        var high = await AttachedAsync(160);
        var level = await AttachedAsync(60);
        await _bench.WorkAsync(high);
        var date = new LocalDate(2026, 2, 1);
        var (above, below) = (await DayAsync(high, date), await DayAsync(level, date));
        Assert.Equal((-0.65, -0.65), (Math.Round(above.MinC - below.MinC, 6), Math.Round(above.MaxC - below.MaxC, 6)));
        Assert.Equal(below.PrecipMm, above.PrecipMm);
    }

    [Fact]
    public async Task Days_OwnReading_OutranksTheSourceWhichIsKept()
    {
        var garden = await AttachedAsync(160);
        await _bench.WorkAsync(garden);
        var date = new LocalDate(2026, 4, 10);
        var model = await DayAsync(garden, date);
        await _bench.Services.GetRequiredService<ReadingStore>().SaveAsync(garden, [new DailyTemperature(date, -3, 21)], default);

        Assert.Equal(new DayWeather(date, -3, 21, model.PrecipMm, model.GustKmh, model.Et0Mm, DayKind.Reading), await DayAsync(garden, date));

        await _bench.Weather.RefreshAsync(garden);
        Assert.Equal(-3, (await DayAsync(garden, date)).MinC);
        var record = await _bench.Services.GetRequiredService<GardenWeather>().RecordAsync(garden, default);
        Assert.Equal(new DailyTemperature(date, model.MinC, model.MaxC), record.Days.Single(found => found.Day.Date == date).Model);
    }

    [Fact]
    public async Task Days_ThirtyYears_AreReadInWellUnderASecond()
    {
        var garden = await AttachedAsync();
        await _bench.WorkAsync(garden);
        await _bench.Weather.DaysAsync(garden);
        var started = System.Diagnostics.Stopwatch.GetTimestamp();
        var days = (await _bench.Weather.DaysAsync(garden)).Days;
        Assert.True(System.Diagnostics.Stopwatch.GetElapsedTime(started) < TimeSpan.FromSeconds(1));
        Assert.True(days.Count > 11_000);
    }
}
