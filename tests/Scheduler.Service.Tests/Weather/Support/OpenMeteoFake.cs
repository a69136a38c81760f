using System.Globalization;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using WireMock;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;

namespace Scheduler.Service.Tests.Weather.Support;

/// <summary>
/// Answers like the published Open-Meteo server: parallel arrays for exactly the days asked, the offset of the zone asked, and the
/// same invented weather for a day whichever way it is asked for.
/// </summary>
internal sealed class OpenMeteoFake
{
    private static readonly Dictionary<string, string> Units = new()
    {
        ["temperature_2m_min"] = "°C",
        ["temperature_2m_max"] = "°C",
        ["temperature_2m_mean"] = "°C",
        ["precipitation_sum"] = "mm",
        ["et0_fao_evapotranspiration"] = "mm",
        ["wind_gusts_10m_max"] = "km/h"
    };

    private readonly Func<LocalDate> _today;

    public OpenMeteoFake(WireMockServer server, Func<LocalDate> todayUtc)
    {
        _today = todayUtc;
        foreach (var path in new[] { "/v1/forecast", "/v1/archive" })
            server.Given(Request.Create().WithPath(path).UsingGet()).AtPriority(100)
                .RespondWith(Response.Create().WithCallback(message => Answer(message)));
    }

    /// <summary>Added to every temperature, in °C.</summary>
    public double WarmerC { get; set; }

    public string TimeZone { get; set; } = "Europe/Berlin";

    /// <summary>What the server takes for an unnamed or automatic zone: the offset at the moment of asking, summer time included.</summary>
    public int SummerOffsetSeconds { get; set; } = 7200;

    public double? ElevationM { get; set; } = 60;

    /// <summary>Last change of an answer before it is sent.</summary>
    public Action<JsonObject, IRequestMessage> Change { get; set; } = (_, _) => { };

    /// <summary>When not null, sent instead of an answer.</summary>
    public Func<IRequestMessage, ResponseMessage?> Instead { get; set; } = _ => null;

    public List<string> Asked { get; } = [];

    public static double MinC(LocalDate date) => Math.Round(3 - 8 * Math.Cos(2 * Math.PI * date.DayOfYear / 365.25), 1);

    private ResponseMessage Answer(IRequestMessage message)
    {
        lock (Asked)
            Asked.Add(message.Url);
        if (Instead(message) is { } other)
            return other;
        string Parameter(string name) => string.Join(",", message.GetParameter(name) ?? []);
        var zone = Parameter("timezone");
        var offset = zone.StartsWith("Etc/GMT", StringComparison.Ordinal)
            ? -3600 * int.Parse("0" + zone["Etc/GMT".Length..].TrimStart('+', '-'), CultureInfo.InvariantCulture) * (zone.Contains('-', StringComparison.Ordinal) ? -1 : 1)
            : SummerOffsetSeconds;
        var (from, to) = Span(message, Parameter);
        var dates = Enumerable.Range(0, Period.DaysBetween(from, to) + 1).Select(from.PlusDays).ToList();
        var variables = Parameter("daily").Split(',');
        var daily = new JsonObject { ["time"] = new JsonArray([.. dates.Select(date => JsonValue.Create(LocalDatePattern.Iso.Format(date)))]) };
        var units = new JsonObject { ["time"] = "iso8601" };
        foreach (var variable in variables)
        {
            units[variable] = Units[variable];
            daily[variable] = new JsonArray([.. dates.Select(date => JsonValue.Create(Value(variable, date)))]);
        }
        var body = new JsonObject
        {
            ["latitude"] = 52.02,
            ["longitude"] = 13.42,
            ["utc_offset_seconds"] = offset,
            ["timezone"] = zone == "auto" ? TimeZone : zone,
            ["elevation"] = ElevationM,
            ["daily_units"] = units,
            ["daily"] = daily
        };
        Change(body, message);
        return Json(200, body.ToJsonString());
    }

    private (LocalDate, LocalDate) Span(IRequestMessage message, Func<string, string> parameter)
    {
        if (parameter("start_date") is { Length: > 0 } start)
            return (LocalDatePattern.Iso.Parse(start).Value, LocalDatePattern.Iso.Parse(parameter("end_date")).Value);
        var pastDays = parameter("past_days") is { Length: > 0 } past ? int.Parse(past, CultureInfo.InvariantCulture) : 0;
        return (_today().PlusDays(-pastDays), _today().PlusDays(int.Parse(parameter("forecast_days"), CultureInfo.InvariantCulture) - 1));
    }

    private double Value(string variable, LocalDate date) => variable switch
    {
        "temperature_2m_min" => MinC(date) + WarmerC,
        "temperature_2m_max" => MinC(date) + WarmerC + 9,
        "temperature_2m_mean" => MinC(date) + WarmerC + 4,
        "precipitation_sum" => date.Day % 3,
        "et0_fao_evapotranspiration" => 2.5,
        _ => 31
    };

    public static ResponseMessage Json(int status, string body) => Text(status, body, "application/json; charset=utf-8");

    public static ResponseMessage Text(int status, string body, string contentType, params (string Name, string Value)[] headers) => new()
    {
        StatusCode = status,
        Headers = headers.Append(("Content-Type", contentType))
            .ToDictionary(header => header.Item1, header => new WireMock.Types.WireMockList<string>(header.Item2)),
        BodyData = new WireMock.Util.BodyData
        {
            BodyAsString = body,
            DetectedBodyType = WireMock.Types.BodyType.String,
            Encoding = System.Text.Encoding.UTF8
        }
    };
}
