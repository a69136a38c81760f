using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;

namespace Scheduler.Service.Tests.Weather;

/// <summary>Every recorded answer, served over HTTP, gives the right days or the right refusal.</summary>
public sealed class RecordedAnswersTests : IDisposable
{
    private const string Min = OpenMeteoQuestion.Min;
    private const string Max = OpenMeteoQuestion.Max;
    private const string Mean = OpenMeteoQuestion.Mean;
    private const string Rain = OpenMeteoQuestion.Precipitation;

    private readonly WeatherBench _bench = new();

    public void Dispose() => _bench.Dispose();

    private void Serve(string path, string file, int status = 200) =>
        _bench.Internet.Given(Request.Create().WithPath(path))
            .RespondWith(Response.Create().WithCallback(_ => OpenMeteoFake.Json(status, RecordedAnswers.Read(file))));

    private async Task<WeatherAnswer> AskAsync(string file, string from, string to, int offsetHours, string[] variables, int status = 200)
    {
        Serve("/v1/forecast", file, status);
        var question = new OpenMeteoQuestion(_bench.Internet.Url + "/v1/forecast", 52, 13.4, offsetHours, Date(from), Date(to), variables);
        return await _bench.OpenMeteo.AskAsync(question, "open-meteo", CallPurpose.Refresh, default);
    }

    [RecordedFact]
    public async Task Berlin2021_AskedWithoutMean_HasItsSevenDays()
    {
        var got = Assert.IsType<WeatherAnswer.Got>(await AskAsync(
            "openmeteo_forecast_daily_berlin_2021_trimmed.json", "2021-11-24", "2021-11-30", 1, [Min, Max, Rain]));
        Assert.Equal([7.6, 5.4, 4.8, 4.5, 3.4, 2.2, 3], got.Days.Select(day => day.MaxC));
        Assert.Equal([5.5, 0.2, 1.8, -0.1, -0.2, -0.5, -0.3], got.Days.Select(day => day.MinC));
        Assert.Equal([0.19, 0.29, 0.76, 0.12, 0.15, 0.64, 1.74], got.Days.Select(day => day.PrecipMm!.Value));
        Assert.Equal(Date("2021-11-24"), got.Days[0].Date);
        Assert.Equal(44.8125, got.ElevationM);
        Assert.Empty(got.Refused);
    }

    [RecordedTheory]
    // Other days than asked, another offset than asked, and a variable that is not there.
    [InlineData("openmeteo_forecast_daily_berlin_2021_trimmed.json", "2021-11-24", "2021-12-01", 1, Max, "exactly the dates")]
    [InlineData("openmeteo_forecast_daily_berlin_2021_trimmed.json", "2021-11-23", "2021-11-29", 1, Max, "exactly the dates")]
    [InlineData("openmeteo_forecast_daily_berlin_2021_trimmed.json", "2021-11-24", "2021-11-29", 1, Max, "exactly the dates")]
    [InlineData("openmeteo_forecast_daily_berlin_2021_trimmed.json", "2021-11-24", "2021-11-30", 2, Max, "offset")]
    [InlineData("openmeteo_forecast_daily_berlin_2021_trimmed.json", "2021-11-24", "2021-11-30", 1, Mean, "has no temperature_2m_mean")]
    // January with the summer offset of the day of asking: asked by the standard offset of Amsterdam, its days are others.
    [InlineData("openmeteo_historical_forecast_2024.json", "2024-01-01", "2024-01-02", 1, Max, "offset")]
    [InlineData("openmeteo_archive_daily_nyc_2024_fahrenheit_trimmed.json", "2024-01-01", "2024-12-31", -5, Max, "in °F")]
    [InlineData("openmeteo_forecast_toronto_fahrenheit_2026.json", "2026-03-04", "2026-03-07", -5, Max, "°F")]
    [InlineData("openmeteo_archive_three_models_2024.json", "2024-01-01", "2024-01-01", 0, Max, "has no temperature_2m_max")]
    [InlineData("openmeteo_archive_era5land_null_day_excerpt.json", "2026-08-30", "2026-08-30", 0, Max, "offset")]
    [InlineData("openmeteo_forecast_gmt_weathercode_2023.json", "2023-11-13", "2023-11-19", 0, Max, "has no temperature_2m_max")]
    [InlineData("openmeteo_ensemble_trimmed.json", "2023-11-13", "2023-11-19", 2, Max, "has no daily_units")]
    [InlineData("openmeteo_elevation_2026.json", "2026-03-04", "2026-03-07", 0, Max, "offset")]
    [InlineData("openmeteo_geocoding_enschede_2026.json", "2026-03-04", "2026-03-07", 0, Max, "offset")]
    [InlineData("nws_points.json", "2026-03-04", "2026-03-07", 0, Max, "offset")]
    [InlineData("nws_gridpoints_forecast_si.json", "2026-03-04", "2026-03-07", 0, Max, "offset")]
    [InlineData("metno_complete_london_2020.json", "2020-07-20", "2020-07-27", 0, Max, "offset")]
    public async Task OpenMeteo_NotWhatWasAsked_IsRefusedWhole(string file, string from, string to, int offsetHours, string variable, string why)
    {
        var failed = Assert.IsType<WeatherAnswer.Failed>(await AskAsync(file, from, to, offsetHours, [variable]));
        Assert.Contains(why, failed.Reason, StringComparison.Ordinal);
    }

    [RecordedTheory]
    [InlineData("openmeteo_forecast_16days_tail_nulls_2026.json", "2026-10-17", "2026-10-18", 2)]
    [InlineData("openmeteo_climate_trimmed.json", "2020-01-01", "2020-01-01", 1)]
    [InlineData("openmeteo_forecast_hourly_daily_zagreb_2026.json", "2026-09-29", "2026-09-30", 2, 2)]
    public async Task OpenMeteo_MaximaWithoutMinima_AreRefusedDayByDay(string file, string from, string to, int days, int offsetHours = 0)
    {
        var got = Assert.IsType<WeatherAnswer.Got>(await AskAsync(file, from, to, offsetHours, [Max]));
        Assert.Empty(got.Days);
        Assert.Equal(days, got.Refused.Count);
    }

    [RecordedFact]
    public async Task Error400_IsShownWithItsReason()
    {
        var failed = Assert.IsType<WeatherAnswer.Failed>(await AskAsync(
            "openmeteo_error_400_latitude.json", "2026-03-04", "2026-03-07", 0, [Max], status: 400));
        Assert.Contains("Given: 522.52.", failed.Reason, StringComparison.Ordinal);
    }

    [RecordedFact]
    public async Task Geocoding_Enschede_HasItsPlaces()
    {
        Serve("/v1/search", "openmeteo_geocoding_enschede_2026.json");
        var (places, _) = await Search.FindAsync("Enschede", default);
        Assert.Equal(
            [
                new Place("Enschede", "Overijssel", "The Netherlands", 52.21833, 6.89583, 45, "Europe/Amsterdam"),
                new Place("Enschede Airport Twente", "Overijssel", "The Netherlands", 52.27, 6.87417, 34, "Europe/Amsterdam")
            ],
            places);
    }

    [RecordedFact]
    public async Task Geocoding_Hollywood_HasAllTenAlsoWhereFieldsAreLeftOut()
    {
        Serve("/v1/search", "openmeteo_geocoding_hollywood_2025.json");
        var (places, fault) = await Search.FindAsync("Hollywood", default);
        Assert.Null(fault);
        Assert.Equal(10, places.Count);
        Assert.Equal(new Place("Hollywood", "Florida", "United States", 26.0112, -80.14949, 3, "America/New_York"), places[0]);
        using var recorded = System.Text.Json.JsonDocument.Parse(RecordedAnswers.Read("openmeteo_geocoding_hollywood_2025.json"));
        var withoutHeight = recorded.RootElement.GetProperty("results").EnumerateArray().Count(item => !item.TryGetProperty("elevation", out _));
        Assert.Equal(withoutHeight, places.Count(place => place.ElevationM is null));
    }

    [RecordedFact]
    public async Task Geocoding_NoMatch_IsAnEmptyList()
    {
        Serve("/v1/search", "openmeteo_geocoding_no_results.json");
        var (places, fault) = await Search.FindAsync("Nowhere", default);
        Assert.Equal((0, null), (places.Count, fault));
    }

    [RecordedFact]
    public async Task LondonComplete2020_HasTheDaysThatHandComputationGives()
    {
        var got = await MetNorwayAsync("metno_complete_london_2020.json", "2020-07-20T11:44:31Z", 0);
        // The first day begins at 11:00 and the last has only a morning; the eight between are whole.
        Assert.Equal([.. Enumerable.Range(21, 8).Select(day => new LocalDate(2020, 7, day))], got.Days.Select(day => day.Date));
        var expected = Expected("metno_complete_london_2020.json");
        Assert.All(got.Days, day => Assert.Equal(expected[day.Date], (day.MinC, day.MaxC)));
        Assert.Equal(25, got.ElevationM);
    }

    [RecordedFact]
    public async Task BeijingCompact2020_HasOnlyTheDaysWithHourlySteps()
    {
        var got = await MetNorwayAsync("metno_compact_beijing_2020.json", "2020-07-20T11:20:44Z", 8);
        // Hourly steps end after 55; by the clock of Beijing these are two whole days, and no extremes follow.
        Assert.All(got.Days, day => Assert.InRange(day.Date, new LocalDate(2020, 7, 21), new LocalDate(2020, 7, 22)));
        Assert.NotEmpty(got.Days);
        Assert.Contains(got.Refused, day => day.Date == new LocalDate(2020, 7, 25));
    }

    [RecordedTheory]
    [InlineData("nws_points.json")]
    [InlineData("nws_gridpoints_forecast_si.json")]
    [InlineData("openmeteo_forecast_hourly_daily_zagreb_2026.json")]
    public void MetNorway_OtherShapes_AreRefusedWhole(string file) =>
        Assert.NotNull(MetNorwayDays.Read(RecordedAnswers.Read(file), 0, Instant.FromUtc(2020, 7, 20, 11, 0)).Fault);

    private PlaceSearch Search => _bench.Services.GetRequiredService<PlaceSearch>();

    private async Task<WeatherAnswer.Got> MetNorwayAsync(string file, string now, int offsetHours)
    {
        _bench.Clock.Reset(InstantPattern.ExtendedIso.Parse(now).Value);
        Serve("/met/complete", file);
        var source = _bench.Services.GetServices<IWeatherSource>().Single(source => source.Name == "met-norway");
        var cell = new WeatherCell { Key = "x", Latitude = 51.5, Longitude = -0.1, UtcOffsetHours = offsetHours, WantedFrom = new LocalDate(1990, 9, 1) };
        return Assert.IsType<WeatherAnswer.Got>(await source.ForecastAsync(cell, 7, default));
    }

    // Computed apart from the service's code: at UTC all 6-hour steps lie within a day.
    private static Dictionary<LocalDate, (double, double)> Expected(string file)
    {
        using var recorded = System.Text.Json.JsonDocument.Parse(RecordedAnswers.Read(file));
        var values = new List<(LocalDate Date, double C)>();
        foreach (var step in recorded.RootElement.GetProperty("properties").GetProperty("timeseries").EnumerateArray())
        {
            var time = step.GetProperty("time").GetDateTime().ToUniversalTime();
            var date = LocalDate.FromDateTime(time);
            values.Add((date, step.GetProperty("data").GetProperty("instant").GetProperty("details").GetProperty("air_temperature").GetDouble()));
            if (time.Hour > 18 || !step.GetProperty("data").TryGetProperty("next_6_hours", out var six)
                || !six.GetProperty("details").TryGetProperty("air_temperature_min", out var min))
                continue;
            values.Add((date, min.GetDouble()));
            values.Add((date, six.GetProperty("details").GetProperty("air_temperature_max").GetDouble()));
        }
        return values.GroupBy(value => value.Date).ToDictionary(day => day.Key, day => (day.Min(value => value.C), day.Max(value => value.C)));
    }

    private static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;
}
