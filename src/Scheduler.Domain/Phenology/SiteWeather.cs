using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// All that is known of one garden's weather: past years, this season and the forecast as one series, already adjusted
/// for height and the owner's offset. <see cref="Today"/> divides what happened from what is forecast.
/// </summary>
public sealed record SiteWeather(double Latitude, LocalDate Today, TemperatureSeries Days)
{
    public Hemisphere Hemisphere => Hemisphere.OfLatitude(Latitude);

    /// <summary>The growth year that today belongs to.</summary>
    public GrowthYear CurrentYear => GrowthYear.Of(Today, Hemisphere);
}
