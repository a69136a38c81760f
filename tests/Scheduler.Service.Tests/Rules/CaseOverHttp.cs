using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// Puts a worked case into the running service as its owner would: garden, readings, tree, log, observations, bench facts,
/// then asks for advice. Only the forecast comes from a made source, for the case names its figures.
/// </summary>
internal static class CaseOverHttp
{
    private const string SourceName = "met-norway";
    private static readonly string[] WorkFields = ["rootPercent", "livingTopPercent", "result", "branch", "crownZone", "mode", "minutes"];

    public static async Task<JsonArray> AdviceAsync(WorkedCase worked)
    {
        var today = LocalDatePattern.Iso.Format(worked.Today);
        await using var factory = new ServiceFactory { Recorders = false, Replacing = services => Forecast(services, worked) }
            .With("Clock:AsOf", today).With("Weather:Sources", SourceName).With("Weather:RefreshEvery", "PT0S").With("Weather:MetNorway:UserAgent", "tests@example.org");
        using var owner = await factory.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Garden(worked));
        using var readings = await owner.PutAsync($"/api/v1/gardens/{garden}/readings", new StringContent(Readings(worked), Encoding.UTF8, "text/csv"));
        readings.EnsureSuccessStatusCode();
        if (Bench(worked.Weather, today) is { } bench)
            await owner.MakeAsync($"/api/v1/gardens/{garden}/observations", bench);
        var tree = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Tree(worked));
        foreach (var work in Work(worked))
            await owner.MakeAsync($"/api/v1/trees/{tree}/work", work);
        foreach (var seen in Seen(worked))
            await owner.MakeAsync($"/api/v1/trees/{tree}/observations", seen);
        using var refreshed = await owner.PostAsync($"/api/v1/gardens/{garden}/refresh", null);
        refreshed.EnsureSuccessStatusCode();
        return JsonNode.Parse(await owner.GetStringAsync($"/api/v1/trees/{tree}/advice"))!["items"]!.AsArray();
    }

    private static JsonObject Garden(WorkedCase worked) => new()
    {
        ["name"] = worked.Id,
        ["latitude"] = worked.Season.Latitude,
        ["longitude"] = 5,
        ["elevationM"] = 10,
        ["timeZone"] = "Europe/Amsterdam",
        ["temperatureOffsetC"] = worked.Weather.TryGetProperty("measuredOffsetC", out var offset) ? offset.GetDouble() : 0,
        ["waterAssured"] = Copy(worked.Weather, "waterAssured"),
        ["frostFreeShelter"] = Copy(worked.Weather, "shelterFrostFree")
    };

    private static string Readings(WorkedCase worked)
    {
        var csv = new StringBuilder("date,tmin_c,tmax_c\n");
        for (var date = worked.Season.Year.ChillStart.PlusYears(-11); date < worked.Today; date = date.PlusDays(1))
        {
            var day = worked.Season.Day(date);
            csv.Append(CultureInfo.InvariantCulture, $"{day.Date:uuuu-MM-dd},{day.MinC:f2},{day.MaxC:f2}\n");
        }
        return csv.ToString();
    }

    private static JsonObject? Bench(JsonElement weather, string today)
    {
        var body = new JsonObject { ["date"] = today };
        foreach (var name in new[] { "soilDry", "woodFrozen", "rootBallC", "roomMinC", "roomMaxC" })
        {
            if (Copy(weather, name) is { } value)
                body[name] = value;
        }
        return body.Count > 1 ? body : null;
    }

    private static JsonObject Tree(WorkedCase worked)
    {
        var body = new JsonObject { ["name"] = worked.Id };
        foreach (var name in new[] { "species", "group", "stage", "goals", "health", "size", "placement", "settings", "branches", "requests" })
            body[name] = Copy(worked.Given, name);
        foreach (var work in worked.Given.GetProperty("lastWork").EnumerateArray())
        {
            if (work.TryGetProperty("known", out var known))
                body["rootWorkKnown"] = known.GetBoolean();
        }
        return body;
    }

    private static IEnumerable<JsonObject> Work(WorkedCase worked)
    {
        foreach (var work in worked.Given.GetProperty("lastWork").EnumerateArray().Where(work => !work.TryGetProperty("known", out _)))
        {
            var body = new JsonObject { ["technique"] = Copy(work, "technique"), ["date"] = Day(worked, work) };
            if (Copy(work, "extent") is { } extent)
                body["extent"] = extent;
            foreach (var name in WorkFields)
            {
                if (Copy(work, name) is { } value)
                    body[name] = value;
            }
            yield return body;
        }
    }

    // Work of this season without a day lies well back in it; work of an earlier one about a year back each.
    private static string Day(WorkedCase worked, JsonElement work)
    {
        var today = worked.Today;
        var day = work.TryGetProperty("daysAgo", out var ago) ? today.PlusDays(-ago.GetInt32())
            : work.TryGetProperty("seasonsAgo", out var seasons) && seasons.GetInt32() > 0 ? today.PlusYears(-seasons.GetInt32()).PlusDays(-1)
            : work.TryGetProperty("heatSinceCd", out var heat) ? today.PlusDays(-WorkedCase.HeatDays(heat.GetProperty("base5").GetDouble()) - 1)
            : today.PlusDays(-60);
        return LocalDatePattern.Iso.Format(day);
    }

    private static IEnumerable<JsonObject> Seen(WorkedCase worked)
    {
        foreach (var since in worked.Given.GetProperty("heatSince").EnumerateArray())
        {
            var body = new JsonObject
            {
                ["date"] = LocalDatePattern.Iso.Format(worked.Today.PlusDays(-WorkedCase.HeatDays(since.GetProperty("base5Cd").GetDouble()))),
                ["bbch"] = int.Parse(since.GetProperty("from").GetString()![5..], CultureInfo.InvariantCulture)
            };
            if (Copy(since, "crownZone") is { } zone)
                body["crownZone"] = zone;
            yield return body;
        }
        foreach (var seen in worked.Given.GetProperty("observations").EnumerateArray())
        {
            var body = JsonNode.Parse(seen.GetRawText())!.AsObject();
            body["date"] = LocalDatePattern.Iso.Format(worked.Today.PlusDays(-body["daysAgo"]!.GetValue<int>()));
            body.Remove("daysAgo");
            yield return body;
        }
    }

    private static void Forecast(IServiceCollection services, WorkedCase worked)
    {
        services.RemoveAll<IWeatherSource>();
        services.AddSingleton<IWeatherSource>(new MadeSource(worked));
    }

    private static JsonNode? Copy(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) ? JsonNode.Parse(value.GetRawText()) : null;

    private sealed class MadeSource(WorkedCase worked) : IWeatherSource
    {
        public string Name => SourceName;

        public Task<WeatherAnswer> ForecastAsync(WeatherCell cell, int pastDays, CancellationToken cancel)
        {
            var offset = worked.Weather.TryGetProperty("measuredOffsetC", out var measured) ? measured.GetDouble() : 0;
            double? gust = worked.Weather.TryGetProperty("maxGustKmh", out var kmh) ? kmh.GetDouble() : null;
            var rain = worked.Weather.TryGetProperty("rainMm", out var mm) ? mm.EnumerateArray().Select(one => one.GetDouble()).ToArray() : [];
            var days = worked.Garden().Days.Where(day => day.Date >= worked.Today).Select((day, number) => new SourceDay(
                day.Date, day.MinC - offset, day.MaxC - offset, null, number < rain.Length ? rain[number] : 0, null, gust,
                DayKind.Forecast, Name, false, worked.Today.AtStartOfDayInZone(DateTimeZone.Utc).ToInstant()));
            return Task.FromResult<WeatherAnswer>(new WeatherAnswer.Got([.. days], [], 10));
        }
    }
}
