using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Weather;

/// <summary>One request to Open-Meteo: a place, daily variables and exactly the days from and to, both inclusive.</summary>
internal sealed record OpenMeteoQuestion(
    string Url, double Latitude, double Longitude, int OffsetHours, LocalDate From, LocalDate To, IReadOnlyList<string> Variables)
{
    public const string Min = "temperature_2m_min";
    public const string Max = "temperature_2m_max";
    public const string Mean = "temperature_2m_mean";
    public const string Precipitation = "precipitation_sum";
    public const string Evapotranspiration = "et0_fao_evapotranspiration";
    public const string Gusts = "wind_gusts_10m_max";

    /// <summary>Without it the archive mixes models that changed over the years, which would show as a change of climate.</summary>
    private const string ArchiveModel = "era5_seamless";

    /// <summary>The unit each variable must come in.</summary>
    public static readonly IReadOnlyDictionary<string, string> Units = new Dictionary<string, string>
    {
        [Min] = "°C",
        [Max] = "°C",
        [Mean] = "°C",
        [Precipitation] = "mm",
        [Evapotranspiration] = "mm",
        [Gusts] = "km/h"
    };

    private string _range = "";

    public int Days => Period.DaysBetween(From, To) + 1;

    /// <summary>
    /// What the source counts for this call: max(1, v/10, v/10·days/14) with v variables. Weights as in its published source code.
    /// </summary>
    public double Weight => Math.Max(1, Variables.Count / 10.0 * Math.Max(1, Days / 14.0));

    public string Query => string.Create(
        CultureInfo.InvariantCulture,
        $"?latitude={Latitude:0.####}&longitude={Longitude:0.####}&daily={string.Join(',', Variables)}"
        + $"&timezone={Uri.EscapeDataString(FixedOffset.ZoneId(OffsetHours))}{_range}");

    /// <summary>Six variables over 23 days still weigh one call.</summary>
    public static OpenMeteoQuestion Forecast(string url, WeatherCell cell, LocalDate today, int pastDays, int forecastDays) =>
        new(url, cell.Latitude, cell.Longitude, cell.OffsetHours, today.PlusDays(-pastDays), today.PlusDays(forecastDays - 1),
            [Min, Max, Mean, Precipitation, Evapotranspiration, Gusts])
        {
            _range = string.Create(CultureInfo.InvariantCulture, $"&past_days={pastDays}&forecast_days={forecastDays}")
        };

    public static OpenMeteoQuestion Archive(string url, WeatherCell cell, LocalDate from, LocalDate to, bool withRain) =>
        new(url, cell.Latitude, cell.Longitude, cell.OffsetHours, from, to, withRain ? [Min, Max, Mean, Precipitation] : [Min, Max, Mean])
        {
            _range = $"&start_date={LocalDatePattern.Iso.Format(from)}&end_date={LocalDatePattern.Iso.Format(to)}&models={ArchiveModel}"
        };
}
