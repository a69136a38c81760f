using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Tests.Weather.Support;

/// <summary>Point forecasts in the published shape, as hourly steps with one temperature each.</summary>
internal static class MetNorwayFake
{
    public static string Body(LocalDate fromUtc, int days, double temperatureC) => Body(
        Enumerable.Range(0, days * 24).Select(hour => (fromUtc.AtMidnight().PlusHours(hour), temperatureC, (double?)null, (double?)null)));

    /// <summary>Steps with the temperature at their begin and the extremes of the next six hours.</summary>
    public static string Body(IEnumerable<(LocalDateTime Utc, double TemperatureC, double? Min6C, double? Max6C)> steps) => new JsonObject
    {
        ["type"] = "Feature",
        ["geometry"] = new JsonObject { ["type"] = "Point", ["coordinates"] = new JsonArray(13.4, 52.0, 55) },
        ["properties"] = new JsonObject
        {
            ["meta"] = new JsonObject { ["units"] = new JsonObject { ["air_temperature"] = "celsius", ["precipitation_amount"] = "mm" } },
            ["timeseries"] = new JsonArray([.. steps.Select(step => (JsonNode)Step(step.Utc, step.TemperatureC, step.Min6C, step.Max6C))])
        }
    }.ToJsonString();

    private static JsonObject Step(LocalDateTime utc, double temperatureC, double? min6C, double? max6C)
    {
        var data = new JsonObject
        {
            ["instant"] = new JsonObject { ["details"] = new JsonObject { ["air_temperature"] = temperatureC } },
            ["next_1_hours"] = new JsonObject { ["details"] = new JsonObject { ["precipitation_amount"] = 0.1 } }
        };
        if (min6C is not null)
            data["next_6_hours"] = new JsonObject
            {
                ["details"] = new JsonObject { ["air_temperature_min"] = min6C, ["air_temperature_max"] = max6C, ["precipitation_amount"] = 1.2 }
            };
        return new JsonObject { ["time"] = InstantPattern.General.Format(utc.InUtc().ToInstant()), ["data"] = data };
    }
}
