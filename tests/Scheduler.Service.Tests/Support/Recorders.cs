using System.Collections.Concurrent;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;
using Scheduler.Service.Hosting;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Support;

/// <summary>Notes which gardens were to be planned anew.</summary>
public sealed class RecordingPlanner : IGardenPlanner
{
    public ConcurrentQueue<Guid> Replanned { get; } = new();

    /// <summary>Makes planning slow, for tests of what happens meanwhile.</summary>
    public TimeSpan Takes { get; set; }

    public async Task ReplanAsync(Guid gardenId, CancellationToken cancel = default)
    {
        await Task.Delay(Takes, cancel);
        Replanned.Enqueue(gardenId);
    }
}

/// <summary>Notes which gardens were to be attached, and answers with the days it was given.</summary>
public sealed class RecordingWeather : IGardenWeather
{
    public ConcurrentQueue<Guid> Attached { get; } = new();

    public GardenDays Days { get; set; } = new([], new WeatherStatus("none", null, 0, 30, [], null));

    public Task AttachAsync(Guid gardenId, CancellationToken cancel = default)
    {
        Attached.Enqueue(gardenId);
        return Task.CompletedTask;
    }

    public Task<GardenDays> DaysAsync(Guid gardenId, CancellationToken cancel = default) => Task.FromResult(Days);

    public Task<bool> RefreshAsync(Guid gardenId, CancellationToken cancel = default) => Task.FromResult(false);
}

/// <summary>Notes which feeds were to be built anew.</summary>
public sealed class RecordingFeeds : IFeedBuilder
{
    public ConcurrentQueue<Guid> Rebuilt { get; } = new();

    public Task RebuildForGardenAsync(Guid gardenId, CancellationToken cancel = default) => Task.CompletedTask;

    public Task RebuildAsync(Guid feedId, CancellationToken cancel = default)
    {
        Rebuilt.Enqueue(feedId);
        return Task.CompletedTask;
    }
}

/// <summary>A few ids of the catalog, so that these tests do not depend on its files.</summary>
public sealed class KnownNames : ISpeciesNames, ITechniqueNames
{
    (string Name, string ColdestZone)? ISpeciesNames.Hardiness(string id) => ("An invented species", "8a");

    private static readonly string[] Species = ["acer-palmatum", "acer-buergerianum", "olea-europaea", "pinus-thunbergii"];

    private static readonly string[] Techniques = ["tip-pinch", "cut-back", "repotting", "outline-trim", "feeding"];

    public IReadOnlyCollection<string> Groups { get; } = ["MPJ", "DMF", "EBT", "PN2"];

    bool ISpeciesNames.Exists(string id) => Species.Contains(id);

    IReadOnlyList<string> ISpeciesNames.Nearest(string id) => NearestIds.Of(id, Species);

    bool ITechniqueNames.Exists(string id) => Techniques.Contains(id);

    IReadOnlyList<string> ITechniqueNames.Nearest(string id) => NearestIds.Of(id, Techniques);

    public IReadOnlyCollection<string> Modes(string? techniqueId) => techniqueId is "outline-trim" or null ? ["free-extension", "return-cut", "routine-trim"] : [];
}

/// <summary>Nothing comes of work, for tests that do not depend on the catalog.</summary>
public sealed class NoPromises : IWorkPromises
{
    public Task<IReadOnlyList<PromiseAnswer>> OfWorkAsync(StoredTree tree, Guid workId, CancellationToken cancel = default) =>
        Task.FromResult<IReadOnlyList<PromiseAnswer>>([]);
}

/// <summary>Feed secrets as the table wants them; enough where no feed is served.</summary>
public sealed class PlainFeedParts : IFeedParts
{
    public (string Hash, string Sealed) NewToken() => (Secrets.Hash(Secrets.New("")), "sealed");

    public bool IsReminder(string text) => NodaTime.Text.PeriodPattern.NormalizingIso.Parse(text).Success;

    public bool IsTime(string text) => NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(text).Success;
}
