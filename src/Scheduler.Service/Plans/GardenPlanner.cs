using System.Collections.Concurrent;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Feeds;
using Scheduler.Service.Planning;
using Scheduler.Service.Roads;

namespace Scheduler.Service.Plans;

/// <summary>Loads a garden's facts, lets the domain find the windows, stores what changed, raises notices and has the feeds rebuilt.</summary>
public sealed class GardenPlanner(
    GardenFactsLoader facts, WindowStore windows, WorkPlanner plans, INoticeBook notices, IFeedBuilder feeds, IClock clock) : IGardenPlanner
{
    private readonly ConcurrentDictionary<Guid, SemaphoreSlim> _turns = new();

    public async Task ReplanAsync(Guid gardenId, CancellationToken cancel = default)
    {
        // One planning of a garden at a time: two at once would announce the same window under two ids.
        var turn = _turns.GetOrAdd(gardenId, _ => new SemaphoreSlim(1));
        await turn.WaitAsync(cancel);
        try
        {
            if (await facts.LoadAsync(gardenId, cancel) is not { } picture)
                return;
            var found = picture.Trees
                .Select(tree => new TreeWindows(tree.Tree.Id, tree.Tree.Name, Found(tree, picture)))
                .ToList();
            var now = clock.GetCurrentInstant();
            var changes = WindowDiff.Changes(gardenId, picture.Inputs.Garden.Name, await windows.OfGardenAsync(gardenId, cancel), found, picture.Today, now);
            await windows.SaveAsync(gardenId, changes, picture.Today, now, cancel);
            await plans.MakeAsync(picture, cancel);
            await notices.RaiseAsync(gardenId, cancel);
        }
        finally
        {
            turn.Release();
        }
        await feeds.RebuildForGardenAsync(gardenId, cancel);
    }

    private WindowSet Found(TreeFacts tree, GardenPicture picture) => PromiseWindows.With(
        WindowFinder.Find(picture.Craft, tree, picture.Garden), picture.Craft,
        PromiseFinder.Find(picture.Craft, tree, picture.Garden), tree.Current.Year.Hemisphere);
}
