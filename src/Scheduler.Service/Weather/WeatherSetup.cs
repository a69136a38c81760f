using Microsoft.Extensions.Options;

namespace Scheduler.Service.Weather;

/// <summary>Registers the weather and checks its settings at start.</summary>
public static class WeatherSetup
{
    public static IServiceCollection AddWeather(this IServiceCollection services, IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        var section = configuration.GetSection("Weather");
        services.AddOptions<WeatherOptions>().Configure(options => Bind(section, options)).ValidateOnStart();
        services.AddSingleton<IValidateOptions<WeatherOptions>, WeatherOptionsValidator>();
        services.AddWeatherHttp();
        services.AddSingleton<CallBudget>();
        services.AddSingleton<WeatherStore>();
        services.AddSingleton<DayStore>();
        services.AddSingleton<ReadingStore>();
        services.AddSingleton<OpenMeteoSource>();
        services.AddSingleton<IWeatherSource>(provider => provider.GetRequiredService<OpenMeteoSource>());
        services.AddSingleton<IWeatherSource, MetNorwaySource>();
        services.AddSingleton<RecordedSource>();
        services.AddSingleton<PlaceSearch>();
        services.AddSingleton<CellUpkeep>();
        services.AddSingleton<WeatherQueue>();
        services.AddSingleton<GardenReplanner>();
        services.AddSingleton<GardenWeather>();
        services.AddSingleton<IGardenWeather>(provider => provider.GetRequiredService<GardenWeather>());
        services.AddHostedService<WeatherWorker>();
        return services;
    }

    private static void Bind(IConfigurationSection section, WeatherOptions options)
    {
        var usual = options.Sources;
        section.Bind(options);
        options.Sources = Sources(section.GetSection("Sources")) ?? usual;
    }

    // By hand, because binding adds to a default list, cannot tell an empty list from none, and an environment variable is one text.
    private static IReadOnlyList<string>? Sources(IConfigurationSection section)
    {
        var items = section.GetChildren().Select(child => child.Value?.Trim() ?? "").ToList();
        if (items.Count > 0)
            return items;
        // An empty list in a JSON file arrives as an empty text.
        return section.Value?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
    }
}
