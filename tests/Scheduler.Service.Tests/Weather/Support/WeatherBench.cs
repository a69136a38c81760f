using Dapper;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Testing;
using NodaTime.Text;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;
using WireMock.Server;

namespace Scheduler.Service.Tests.Weather.Support;

/// <summary>The weather of the service on a new database, a clock that stands still and a false internet.</summary>
internal sealed class WeatherBench : IDisposable
{
    private readonly string _folder;
    private readonly bool _ownsFolder;

    /// <summary>A folder of another bench stands for the same service started again.</summary>
    public WeatherBench(string now = "2026-04-20T10:00:00Z", IDictionary<string, string?>? settings = null, string? folder = null)
    {
        _ownsFolder = folder is null;
        _folder = folder ?? Directory.CreateTempSubdirectory("weather-bench").FullName;
        Internet = WireMockServer.Start();
        Clock = new FakeClock(InstantPattern.ExtendedIso.Parse(now).Value);
        var all = new Dictionary<string, string?>
        {
            ["Weather:OpenMeteo:ForecastUrl"] = Internet.Url + "/v1/forecast",
            ["Weather:OpenMeteo:ArchiveUrl"] = Internet.Url + "/v1/archive",
            ["Weather:OpenMeteo:GeocodingUrl"] = Internet.Url + "/v1/search",
            ["Weather:MetNorway:Url"] = Internet.Url + "/met/complete",
            ["Weather:MetNorway:UserAgent"] = "bench/1.0 bench@example.org",
            ["Weather:RetryAfter"] = "PT0.01S"
        };
        foreach (var (key, value) in settings ?? new Dictionary<string, string?>())
            all[key] = value;
        var configuration = new ConfigurationBuilder().AddInMemoryCollection(all).Build();
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddSingleton<IClock>(Clock);
        services.Configure<StorageOptions>(storage => storage.Folder = _folder);
        services.AddSingleton<Database>();
        services.AddSingleton<IGardenPlanner>(Planner);
        services.AddWeather(configuration);
        Services = services.BuildServiceProvider();
        Database.Migrate();
    }

    public WireMockServer Internet { get; }

    public FakeClock Clock { get; }

    public ServiceProvider Services { get; }

    public PlannerLog Planner { get; } = new();

    public string Folder => _folder;

    public Database Database => Services.GetRequiredService<Database>();

    public IGardenWeather Weather => Services.GetRequiredService<IGardenWeather>();

    public WeatherStore Store => Services.GetRequiredService<WeatherStore>();

    public CellUpkeep Upkeep => Services.GetRequiredService<CellUpkeep>();

    public OpenMeteoSource OpenMeteo => Services.GetRequiredService<OpenMeteoSource>();

    public LocalDate Today => Clock.GetCurrentInstant().InUtc().Date;

    public async Task<Guid> AddGardenAsync(
        double latitude = 52.03, double longitude = 13.41, double? elevationM = null, bool recorded = false, string? timeZone = null, Guid? account = null)
    {
        var (garden, owner) = (Guid.NewGuid(), account ?? Guid.NewGuid());
        var now = Clock.GetCurrentInstant();
        await using var connection = await Database.OpenAsync();
        await connection.ExecuteAsync(
            "INSERT INTO accounts (id, name, created_at) VALUES (@owner, 'An owner', @now) ON CONFLICT (id) DO NOTHING", new { owner, now });
        await connection.ExecuteAsync(
            """
            INSERT INTO gardens (id, account_id, name, latitude, longitude, elevation_m, time_zone, recorded, created_at, changed_at)
            VALUES (@garden, @owner, 'A garden', @latitude, @longitude, @elevationM, @timeZone, @recorded, @now, @now)
            """,
            new { garden, owner, latitude, longitude, elevationM, timeZone, recorded = recorded ? 1 : 0, now });
        return garden;
    }

    /// <summary>Works on the garden's cell until nothing is due or something has to wait; answers the last outcome.</summary>
    public async Task<CellOutcome> WorkAsync(Guid gardenId)
    {
        var key = (await Store.GardenAsync(gardenId, default))!.CellKey!;
        for (var step = 0; step < 50; step++)
        {
            var outcome = await Upkeep.StepAsync(key, default);
            if (outcome.RetryAt is not null || !Upkeep.IsDue((await Store.CellAsync(key, default))!))
                return outcome;
        }
        throw new InvalidOperationException("The cell is never done.");
    }

    public async Task<WeatherCell> CellOfAsync(Guid gardenId)
    {
        var garden = await Store.GardenAsync(gardenId, default);
        return (await Store.CellAsync(garden!.CellKey!, default))!;
    }

    public void Dispose()
    {
        Services.Dispose();
        Internet.Stop();
        Internet.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (_ownsFolder)
            Directory.Delete(_folder, recursive: true);
    }
}

/// <summary>Writes down which gardens were planned anew.</summary>
internal sealed class PlannerLog : IGardenPlanner
{
    public List<Guid> Planned { get; } = [];

    public Task ReplanAsync(Guid gardenId, CancellationToken cancel = default)
    {
        lock (Planned)
            Planned.Add(gardenId);
        return Task.CompletedTask;
    }
}
