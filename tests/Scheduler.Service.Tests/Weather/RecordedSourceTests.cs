using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Gardens;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class RecordedSourceTests : IDisposable
{
    private readonly WeatherBench _bench = new("2026-11-25T12:00:00Z", new Dictionary<string, string?> { ["Weather:Sources"] = "recorded" });

    public void Dispose() => _bench.Dispose();

    private RecordedSource Source => (RecordedSource)_bench.Services.GetService(typeof(RecordedSource))!;

    [Theory]
    [InlineData(52, "north")]
    [InlineData(15.1, "north")]
    [InlineData(15, "tropics")]
    [InlineData(-14, "tropics")]
    [InlineData(-15.1, "south")]
    [InlineData(-43.5, "south")]
    public void PlaceFor_Latitude_IsNearestOfItsHemisphere(double latitude, string place) => Assert.Equal(place, Source.PlaceFor(latitude).Id);

    [Fact]
    public void Days_AnyYear_HaveNoGapAndLeapDaysOnlyInLeapYears()
    {
        foreach (var place in Source.Places)
        {
            var days = place.Days(new LocalDate(1899, 1, 1), new LocalDate(2101, 12, 31), new LocalDate(2026, 11, 25)).ToList();
            Assert.Equal(Period.DaysBetween(new LocalDate(1899, 1, 1), new LocalDate(2101, 12, 31)) + 1, days.Count);
            Assert.Equal(49, days.Count(day => day.Date is { Month: 2, Day: 29 }));
        }
    }

    [Fact]
    public void Days_AroundToday_AreObservedAndThenForecast()
    {
        var days = Source.Days(52, new LocalDate(2026, 11, 25));
        Assert.Equal(DayKind.Observed, days.Single(day => day.Date == new LocalDate(2026, 11, 25)).Kind);
        Assert.Equal(DayKind.Forecast, days.Single(day => day.Date == new LocalDate(2026, 11, 26)).Kind);
        Assert.Equal(new LocalDate(2026, 12, 11), days[^1].Date);
        Assert.Equal(new LocalDate(1994, 9, 1), days[0].Date);
    }

    [Theory]
    [InlineData(52, "2026-11-25")]
    [InlineData(52, "2026-12-20")]
    [InlineData(-43, "2026-04-25")]
    [InlineData(-43, "2026-06-25")]
    public void Days_AnyDay_HoldThirtyWintersAndNoInventedYearTwice(double latitude, string today)
    {
        var day = NodaTime.Text.LocalDatePattern.Iso.Parse(today).Value;
        var days = Source.Days(latitude, day);
        Assert.NotNull(GardenAnswers.ZoneOf(days, Hemisphere.OfLatitude(latitude)));
        Assert.True(days[^1].Date.Year - days[0].Date.Year + 1 <= Source.PlaceFor(latitude).Years);
    }

    [Fact]
    public void Places_Climates_AreAsNamed()
    {
        double January(string place) => MeanC(place, 1);
        double July(string place) => MeanC(place, 7);
        Assert.InRange(January("north"), 0, 6);
        Assert.InRange(July("north"), 16, 22);
        Assert.InRange(January("south"), 14, 20);
        Assert.InRange(July("south"), 3, 9);
        Assert.InRange(January("tropics"), 24, 30);
        Assert.True(Days("north").Count(day => day.MinC < 0) > 20 * 20);
        Assert.DoesNotContain(Days("tropics"), day => day.MinC < 15);
    }

    [Fact]
    public async Task Attach_RecordedGarden_HasWeatherAtOnceAndSaysThatItIsInvented()
    {
        var garden = await _bench.AddGardenAsync(latitude: 50, elevationM: 220);
        await _bench.Weather.AttachAsync(garden);

        var (days, status) = await _bench.Weather.DaysAsync(garden);
        Assert.Equal(("ready", 30, 30), (status.State, status.YearsDone, status.YearsWanted));
        Assert.Contains("Invented", Assert.Single(status.Sources).Attribution, StringComparison.Ordinal);
        Assert.Contains("not this garden's own", status.Sources[0].Attribution, StringComparison.Ordinal);
        // The invented place lies at 20 m, the garden 200 m higher.
        var raw = Source.Days(50, new LocalDate(2026, 11, 25));
        Assert.Equal(raw[100].MinC - 1.3, days[100].MinC, 6);
        Assert.Equal("Etc/GMT-1", (await _bench.Store.GardenAsync(garden, default))!.TimeZone);
        Assert.Empty(_bench.Internet.LogEntries);
    }

    [Fact]
    public async Task Attach_DemonstrationGardenBesideReal_UsesRecordedWhateverTheSources()
    {
        using var real = new WeatherBench();
        var upstream = new OpenMeteoFake(real.Internet, () => real.Today);
        var demonstration = await real.AddGardenAsync(recorded: true);
        await real.Weather.AttachAsync(demonstration);
        Assert.Equal("recorded", Assert.Single((await real.Weather.DaysAsync(demonstration)).Status.Sources).Source);
        Assert.False(await real.Weather.RefreshAsync(demonstration));
        Assert.Empty(upstream.Asked);
    }

    private IReadOnlyList<DayWeather> Days(string place) => [.. Source.Places.Single(found => found.Id == place)
        .Days(new LocalDate(2000, 1, 1), new LocalDate(2019, 12, 31), new LocalDate(2026, 11, 25))];

    private double MeanC(string place, int month) => Days(place).Where(day => day.Date.Month == month).Average(day => (day.MinC + day.MaxC) / 2);
}
