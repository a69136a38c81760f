using Dapper;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;
using Scheduler.Service.Gardens;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Demo;

/// <summary>
/// On first start, while the database is empty, makes an account with one invented garden in each hemisphere, both on
/// recorded invented weather, so that the whole path can be seen without network.
/// </summary>
internal sealed class DemoAccount(
    Database database, AccountStore accounts, GardenStore gardens, TreeStore trees, WorkStore work, GardenFollowers followers, FeedKeeper feeds, IClock clock)
{
    private const int UsualDaysAfterHeatStart = 75;

    /// <summary>What the owner of the demonstration needs to know; null when there are accounts already.</summary>
    public async Task<DemoMade?> MakeAsync()
    {
        await using (var connection = await database.OpenAsync())
        {
            if (await connection.ExecuteScalarAsync<long>("SELECT count(*) FROM accounts") > 0)
                return null;
        }
        var data = DemoData.Read();
        var now = clock.GetCurrentInstant();
        var account = new Account { Id = Guid.CreateVersion7(), Name = data.Account, CreatedAt = now };
        var (key, shown) = KeysApi.NewKey(account.Id, "demonstration", now);
        await accounts.AddAsync(account, key);
        var made = new List<Guid>();
        foreach (var garden in data.Gardens)
            made.Add(await AddAsync(garden, data.Trees, account.Id, now));
        var feed = await feeds.CreateAsync(account.Id, new FeedSettings(
            data.Feed.Name, null, null, data.Feed.Content, [.. data.Feed.Reminders.Select(text => Reminder.Parse(text)!)]));
        return new DemoMade(shown, feed, made[0]);
    }

    private async Task<Guid> AddAsync(DemoGarden demo, IReadOnlyList<DemoTree> collection, Guid accountId, Instant now)
    {
        var garden = new Garden
        {
            Id = Guid.CreateVersion7(), AccountId = accountId, Name = demo.Name, Latitude = demo.Latitude, Longitude = demo.Longitude,
            ElevationM = demo.ElevationM, TimeZone = demo.TimeZone, WorkDays = demo.WorkDays, WaterAssured = demo.WaterAssured,
            FrostFreeShelter = demo.FrostFreeShelter, CreatedAt = now, ChangedAt = now
        };
        await gardens.AddAsync(garden);
        await using (var connection = await database.OpenAsync())
            await connection.ExecuteAsync("UPDATE gardens SET recorded = 1 WHERE id = @id", new { id = garden.Id });
        var year = GrowthYear.Of(garden.DateAt(now), Hemisphere.OfLatitude(garden.Latitude));
        foreach (var tree in collection)
            await AddAsync(tree, garden.Id, year, now);
        await followers.AttachAndReplanAsync(garden.Id);
        return garden.Id;
    }

    private async Task AddAsync(DemoTree demo, Guid gardenId, GrowthYear year, Instant now)
    {
        var tree = new Tree
        {
            Id = Guid.CreateVersion7(), Name = demo.Name, SpeciesId = demo.Species, Cultivar = demo.Cultivar, Stage = demo.Stage, Goals = demo.Goals,
            Size = demo.Size, Health = demo.Health, Placement = demo.Placement ?? Placement.Open, Notes = demo.Notes
        };
        await trees.AddAsync(new StoredTree(gardenId, tree, now, now));
        foreach (var done in demo.Work)
        {
            var spring = year with { Year = year.Year - done.SpringsAgo };
            var record = new WorkRecord
            {
                Id = Guid.CreateVersion7(), Technique = done.Technique, Extent = done.Extent, Result = done.Result,
                Date = spring.HeatStart.PlusDays(done.DaysAfterHeatStart ?? UsualDaysAfterHeatStart)
            };
            await work.AddAsync(new StoredWork(record.Id, tree.Id, record.Date, Json.Write(record), now));
        }
    }
}

/// <summary>What first start made: the access key, shown this once, the feed, and a garden to look at.</summary>
internal sealed record DemoMade(string AccessKey, Feed Feed, Guid GardenId);
