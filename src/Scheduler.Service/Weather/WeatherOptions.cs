using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Weather;

/// <summary>Where weather comes from and how often (<c>Weather</c> in the settings).</summary>
public sealed class WeatherOptions
{
    /// <summary>
    /// Order of preference out of <c>open-meteo</c>, <c>met-norway</c> and <c>recorded</c>. Empty: the owners' readings only.
    /// With <c>recorded</c> every garden gets invented demonstration weather. Default: <c>open-meteo</c>, <c>met-norway</c>.
    /// </summary>
    public IReadOnlyList<string> Sources { get; set; } = [SourceNames.OpenMeteo, SourceNames.MetNorway];

    /// <summary>ISO 8601 duration between two forecasts of a cell; at least PT15M, or PT0S: only when asked. Default: PT6H.</summary>
    public string RefreshEvery { get; set; } = "PT6H";

    /// <summary>ISO 8601 duration before the second try of a failed request, doubled for the third; at most PT1M. Default: PT1S.</summary>
    public string RetryAfter { get; set; } = "PT1S";

    /// <summary>Folder of the recorded weather. Default: <c>demo-data/weather</c> beside the program.</summary>
    public string RecordedFolder { get; set; } = Path.Combine(AppContext.BaseDirectory, "demo-data", "weather");

    public OpenMeteoOptions OpenMeteo { get; set; } = new();

    public MetNorwayOptions MetNorway { get; set; } = new();

    internal bool AllRecorded => Sources.Contains(SourceNames.Recorded);

    internal Duration RefreshInterval => Parse(RefreshEvery) ?? throw new InvalidOperationException("Weather:RefreshEvery was not validated.");

    internal Duration RetryInterval => Parse(RetryAfter) ?? throw new InvalidOperationException("Weather:RetryAfter was not validated.");

    /// <summary>Null when the text is no ISO 8601 duration of weeks, days, hours, minutes and seconds, or is negative.</summary>
    internal static Duration? Parse(string text)
    {
        var parsed = PeriodPattern.NormalizingIso.Parse(text ?? "");
        if (!parsed.Success || parsed.Value.Years != 0 || parsed.Value.Months != 0)
            return null;
        var duration = parsed.Value.ToDuration();
        return duration < Duration.Zero ? null : duration;
    }
}

/// <summary>Full URLs without query; a server of your own may stand behind them.</summary>
public sealed class OpenMeteoOptions
{
    /// <summary>Forecast with past days.</summary>
    public string ForecastUrl { get; set; } = "https://api.open-meteo.com/v1/forecast";

    /// <summary>Past weather, from 1940.</summary>
    public string ArchiveUrl { get; set; } = "https://archive-api.open-meteo.com/v1/archive";

    /// <summary>Place search.</summary>
    public string GeocodingUrl { get; set; } = "https://geocoding-api.open-meteo.com/v1/search";

    /// <summary>Key of a paid plan, which also needs the URLs of that plan. Default: none.</summary>
    public string? ApiKey { get; set; }
}

/// <summary>The fallback forecast. Its operator demands that callers say who they are.</summary>
public sealed class MetNorwayOptions
{
    /// <summary>Full URL without query, of the product with 6-hour extremes.</summary>
    public string Url { get; set; } = "https://api.met.no/weatherapi/locationforecast/2.0/complete";

    /// <summary>Name of this installation and an address of who runs it. While it is empty the source is not called.</summary>
    public string? UserAgent { get; set; }
}
