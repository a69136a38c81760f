using Dapper;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Catalog;
using Scheduler.Service.Feeds;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;

namespace Scheduler.Benchmarks.Replay;

/// <summary>One day of a replayed season.</summary>
/// <param name="Found">What the rules found with the weather known that day.</param>
/// <param name="Announced">What stood announced afterwards.</param>
/// <param name="Feeds">Bytes of each feed, by name.</param>
internal sealed record ReplayedDay(
    LocalDate Date, Instant At, IReadOnlyList<TreeWindows> Found, IReadOnlyList<StoredWindow> Announced, IReadOnlyDictionary<string, byte[]> Feeds);

/// <summary>
/// A past season lived through again, one planning each morning: the service's own facts, rules, calm dates, day planner, storage and
/// feeds over the real temperatures; only weather and clock are given. Nobody works on the trees, so only weather moves a date.
/// </summary>
internal sealed class SeasonReplay : IAsyncDisposable
{
    private static readonly Guid Account = new("00000000-0000-4000-8000-000000007000");
    private static readonly Guid Garden = new("00000000-0000-4000-8000-000000009000");
    private const double Latitude = 42.53;
    private const int YearsBack = 30;

    private readonly string _folder = Directory.CreateTempSubdirectory("replay").FullName;
    private readonly ReplayForecast _forecast;
    private readonly Moment _clock = new();
    private readonly GivenWeather _weather = new();
    private readonly Dictionary<string, Feed> _feeds = [];
    private readonly GardenFactsLoader _facts;
    private readonly WindowStore _windows;
    private readonly GardenPlanner _planner;
    private readonly FeedBuilder _builder;
    private readonly FeedKeeper _keeper;
    private readonly FeedBodies _bodies;
    private readonly FeedTokens _tokens = new(new EphemeralDataProtectionProvider());
    private readonly Database _database;

    /// <param name="real">The real days, many years of them.</param>
    /// <param name="year">Season to live through.</param>
    /// <param name="forecastDays">Days of forecast from today on; 0: none.</param>
    public SeasonReplay(TemperatureSeries real, int year, int forecastDays, CatalogContent catalog)
    {
        Year = year;
        _forecast = new ReplayForecast(real, forecastDays);
        _database = new Database(Options.Create(new StorageOptions { Folder = _folder }));
        _database.Migrate();
        _facts = new GardenFactsLoader(new PlanInputStore(_database), _weather, new SeasonCache(), new CurrentCatalog(catalog, default), _clock);
        _windows = new WindowStore(_database);
        _bodies = new FeedBodies(_database);
        _builder = new FeedBuilder(_bodies, Options.Create(new FeedOptions()), _clock);
        _keeper = new FeedKeeper(new FeedStore(_database), _tokens, _builder, _clock);
        _planner = new GardenPlanner(_facts, _windows, new WorkPlanner(_windows, new PlanStore(_database), catalog, _clock), new NoNotices(), _builder, _clock);
    }

    public int Year { get; }

    /// <param name="feeds">Feeds to keep, by name.</param>
    public async IAsyncEnumerable<ReplayedDay> LiveAsync(LocalDate from, LocalDate to, IReadOnlyDictionary<string, FeedSettings>? feeds = null)
    {
        _clock.Now = Morning(from);
        await SetUpAsync();
        foreach (var (name, settings) in feeds ?? new Dictionary<string, FeedSettings>())
            _feeds[name] = await _keeper.CreateAsync(Account, settings);
        for (var today = from; today <= to; today = today.PlusDays(1))
        {
            _clock.Now = Morning(today);
            _weather.Days = _forecast.KnownOn(today, new LocalDate(Year - YearsBack, 1, 1));
            var picture = (await _facts.LoadAsync(Garden))!;
            var found = GardenPlanner.Found(picture);
            await _planner.AnnounceAsync(picture, found, CancellationToken.None);
            await _builder.RebuildForGardenAsync(Garden);
            var bytes = new Dictionary<string, byte[]>();
            foreach (var (name, feed) in _feeds)
                bytes[name] = (await _bodies.FindAsync(FeedTokens.Hash(_tokens.Open(feed.TokenSealed)!)))!.Body;
            yield return new ReplayedDay(today, _clock.Now, found, await _windows.OfGardenAsync(Garden), bytes);
        }
    }

    public ValueTask DisposeAsync()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    private async Task SetUpAsync()
    {
        await using var connection = await _database.OpenAsync();
        var at = _clock.Now;
        await connection.ExecuteAsync("INSERT INTO accounts (id, name, created_at) VALUES (@Account, 'Replay', @at)", new { Account, at });
        await connection.ExecuteAsync(
            """
            INSERT INTO gardens (id, account_id, name, latitude, longitude, time_zone, work_days, water_assured, created_at, changed_at)
            VALUES (@Garden, @Account, 'Replay', @Latitude, -72.19, 'America/New_York', '[{"day":"saturday","minutes":240},{"day":"sunday","minutes":180}]', 1, @at, @at)
            """,
            new { Garden, Account, Latitude, at });
        foreach (var tree in ReplayTrees.Of(Year))
        {
            await connection.ExecuteAsync(
                "INSERT INTO trees (id, garden_id, body, created_at, changed_at) VALUES (@Id, @Garden, @Body, @at, @at)",
                new { tree.Id, Garden, Body = Json.Write(tree), at });
        }
    }

    // Six in the morning there.
    private static Instant Morning(LocalDate day) => day.At(new LocalTime(11, 0)).InUtc().ToInstant();

    private sealed class Moment : IClock
    {
        public Instant Now { get; set; }

        public Instant GetCurrentInstant() => Now;
    }

    private sealed class GivenWeather : IGardenWeather
    {
        public IReadOnlyList<DayWeather> Days { get; set; } = [];

        public Task AttachAsync(Guid gardenId, CancellationToken cancel = default) => Task.CompletedTask;

        public Task<GardenDays> DaysAsync(Guid gardenId, CancellationToken cancel = default) =>
            Task.FromResult(new GardenDays(Days, new WeatherStatus("ready", null, YearsBack, YearsBack, [], null)));

        public Task<bool> RefreshAsync(Guid gardenId, CancellationToken cancel = default) => Task.FromResult(false);
    }

    /// <summary>Nobody listens on the roads here.</summary>
    private sealed class NoNotices : INoticeBook
    {
        public Task RaiseAsync(Guid gardenId, CancellationToken cancel = default) => Task.CompletedTask;
    }
}
