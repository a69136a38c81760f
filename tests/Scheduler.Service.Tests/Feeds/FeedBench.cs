using Dapper;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.Options;
using NodaTime;
using NodaTime.Testing;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;
using Scheduler.Service.Hosting;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>A fresh database with one account, two gardens and a clock that tests move; windows come the way planning brings them.</summary>
internal sealed class FeedBench : IDisposable
{
    public static readonly Guid Account = FeedSamples.Id(7000);
    public static readonly Guid Garden = FeedSamples.Id(9000);
    public static readonly Guid OtherGarden = FeedSamples.Id(9001);

    public const string AccessKey = "invented-access-key";

    private static readonly CalmDates Calm = new(Catalog.ShippedCatalog.Content.Craft.Planning);

    private readonly bool _isOwn;
    private readonly WindowStore _windows;

    /// <param name="storage">The storage of a running service; null for one of its own.</param>
    public FeedBench(StorageOptions? storage = null)
    {
        _isOwn = storage is null;
        storage ??= new StorageOptions { Folder = Directory.CreateTempSubdirectory("feeds").FullName };
        Folder = storage.Folder;
        Database = new Database(Options.Create(storage));
        Database.Migrate();
        Clock = new FakeClock(Instant.FromUtc(2021, 3, 1, 6, 0));
        Tokens = new FeedTokens(DataProtectionProvider.Create(new DirectoryInfo(Path.Combine(Folder, "keys")), keys => keys.SetApplicationName("Scheduler")));
        Bodies = new FeedBodies(Database);
        Builder = new FeedBuilder(Bodies, Options.Create(new FeedOptions { Host = "scheduler.test" }), Clock);
        Store = new FeedStore(Database);
        Keeper = new FeedKeeper(Store, Tokens, Builder, Clock);
        _windows = new WindowStore(Database);
        Run("INSERT INTO accounts (id, name, created_at) VALUES (@Account, 'Owner', '2021-01-01T00:00:00Z')", new { Account });
        Run("INSERT INTO access_keys (id, account_id, key_hash, label, created_at) VALUES (@Account, @Account, @hash, 'Test', '2021-01-01T00:00:00Z')",
            new { Account, hash = Secrets.Hash(AccessKey) });
        foreach (var (id, name) in new[] { (Garden, "Garden"), (OtherGarden, "Other garden") })
        {
            Run("INSERT INTO gardens (id, account_id, name, latitude, longitude, created_at, changed_at) VALUES (@id, @Account, @name, 1, 2, '2021-01-01T00:00:00Z', '2021-01-01T00:00:00Z')",
                new { id, name, Account });
        }
    }

    public string Folder { get; }
    public Database Database { get; }
    public FakeClock Clock { get; }
    public FeedTokens Tokens { get; }
    public FeedBodies Bodies { get; }
    public FeedStore Store { get; }
    public FeedBuilder Builder { get; }
    public FeedKeeper Keeper { get; }

    public static FeedSettings Settings(params string[] reminders) =>
        new("Bench", null, null, FeedContent.Windows, [.. reminders.Select(text => Reminder.Parse(text)!)]);

    /// <summary>What planning does: compare, keep, rebuild.</summary>
    public async Task PlanAsync(Guid garden, params TreeWindows[] found)
    {
        var now = Clock.GetCurrentInstant();
        var changes = WindowDiff.Changes(garden, "Garden", await _windows.OfGardenAsync(garden), found, Calm, now.InUtc().Date, now);
        await _windows.SaveAsync(garden, changes, now.InUtc().Date, now);
        await Builder.RebuildForGardenAsync(garden);
    }

    public Task<IReadOnlyList<StoredWindow>> WindowsAsync(Guid garden) => _windows.OfGardenAsync(garden);

    /// <summary>Keeps a plan of these visits and rebuilds, as the planner does.</summary>
    public async Task VisitAsync(Guid garden, params PlannedVisit[] visits)
    {
        var now = Clock.GetCurrentInstant();
        await new PlanStore(Database).SaveAsync(garden, new StoredPlan(now.InUtc().Date, now.InUtc().Date.PlusDays(40), visits, []), now);
        await Builder.RebuildForGardenAsync(garden);
    }

    public void SetZone(Guid garden, string zone) => Run("UPDATE gardens SET time_zone = @zone WHERE id = @garden", new { garden, zone });

    public static TreeWindows Tree(int number, string name, params WorkWindow[] windows)
    {
        var id = FeedSamples.Id(number);
        return new TreeWindows(id, name, new WindowSet([.. windows.Select(window => window with { Key = window.Key with { TreeId = id } })], []));
    }

    public async Task<FeedBody> BodyAsync(Feed feed) => (await Bodies.FindAsync(FeedTokens.Hash(Tokens.Open(feed.TokenSealed)!)))!;

    public async Task<string> TextAsync(Feed feed) => System.Text.Encoding.UTF8.GetString((await BodyAsync(feed)).Body);

    public void Run(string sql, object? values = null)
    {
        using var connection = Database.OpenAsync().GetAwaiter().GetResult();
        connection.Execute(sql, values);
    }

    public void Dispose()
    {
        if (!_isOwn)
            return;
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(Folder, recursive: true);
    }
}
