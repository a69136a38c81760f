using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Tests.Feeds;

public sealed class FeedBuilderTests : IDisposable
{
    private readonly FeedBench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task Rebuild_WindowMoved_ChangesThatEventAlone()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT15H"));
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()), FeedBench.Tree(2, "Elm", FeedSamples.Pinch()));
        var before = FeedSamples.Events(await _bench.TextAsync(feed));

        _bench.Clock.AdvanceDays(1);
        var earlier = FeedSamples.Pinch() with { Opens = new DateBand(new(2021, 3, 29), new(2021, 4, 4), new(2021, 4, 11)) };
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", earlier), FeedBench.Tree(2, "Elm", FeedSamples.Pinch()));
        var after = FeedSamples.Events(await _bench.TextAsync(feed));

        Assert.Equal(before.Keys.Order(), after.Keys.Order());
        var moved = Assert.Single(after.Keys, uid => before[uid] != after[uid]);
        Assert.Contains("Maple", after[moved], StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:20210412", before[moved], StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:20210404", after[moved], StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:0", before[moved], StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:1", after[moved], StringComparison.Ordinal);
        Assert.Contains("LAST-MODIFIED:20210302T060000Z", after[moved], StringComparison.Ordinal);
        Assert.Contains("DTSTAMP:20210302T060000Z", after[moved], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rebuild_WindowWithdrawn_IsCancelledForThirtyDays()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        var uid = FeedSamples.Events(await _bench.TextAsync(feed)).Keys.Single();

        var refused = new Refusal("tip-pinch", null, 2021, Verdict.NotAllowed, [new Reason("roots-rebuilding", "It was repotted on 1 March 2021.")]);
        var maple = FeedBench.Tree(1, "Maple") with { Set = new WindowSet([], [refused]) };
        _bench.Clock.AdvanceDays(1);
        await _bench.PlanAsync(FeedBench.Garden, maple);
        var cancelled = FeedSamples.Events(await _bench.TextAsync(feed))[uid];
        Assert.Contains("STATUS:CANCELLED", cancelled, StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:1", cancelled, StringComparison.Ordinal);
        Assert.Contains("It was repotted on 1 March 2021.", cancelled, StringComparison.Ordinal);

        _bench.Clock.Advance(Duration.FromDays(30) - Duration.FromSeconds(1));
        await _bench.PlanAsync(FeedBench.Garden, maple);
        Assert.Equal(cancelled, FeedSamples.Events(await _bench.TextAsync(feed))[uid]);

        _bench.Clock.AdvanceSeconds(1);
        await _bench.PlanAsync(FeedBench.Garden, maple);
        Assert.Empty(FeedSamples.Events(await _bench.TextAsync(feed)));
    }

    [Fact]
    public async Task Rebuild_NothingNew_KeepsBytesTagAndStamp()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("P1D"));
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        var before = await _bench.BodyAsync(feed);
        _bench.Clock.AdvanceDays(3);
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        var after = await _bench.BodyAsync(feed);
        Assert.Equal(before.Body, after.Body);
        Assert.Equal((before.Etag, before.BodyChangedAt), (after.Etag, after.BodyChangedAt));
    }

    [Fact]
    public async Task Rebuild_StoppedClock_StillMovesTheStampOfTheBytes()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        var before = await _bench.BodyAsync(feed);
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        var after = await _bench.BodyAsync(feed);
        Assert.NotEqual(before.Etag, after.Etag);
        Assert.True(after.BodyChangedAt >= before.BodyChangedAt + Duration.FromSeconds(1));
    }

    [Fact]
    public async Task Rebuild_GardensAndTechniques_AreFiltered()
    {
        var all = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        var one = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings() with { GardenIds = [FeedBench.OtherGarden] });
        var repotting = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings() with { Techniques = ["repotting"] });
        var repot = FeedSamples.Pinch() with { Key = new WindowKey(Guid.Empty, "repotting", null, 2021, 1), Title = "Repot" };
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch(), repot));
        await _bench.PlanAsync(FeedBench.OtherGarden, FeedBench.Tree(2, "Elm", FeedSamples.Pinch()));

        Assert.Equal(["Pinch window opens: Elm", "Pinch window opens: Maple", "Repot: Maple"], Summaries(await _bench.TextAsync(all)));
        Assert.Equal(["Pinch window opens: Elm"], Summaries(await _bench.TextAsync(one)));
        Assert.Equal(["Repot: Maple"], Summaries(await _bench.TextAsync(repotting)));
    }

    [Fact]
    public async Task Rebuild_GardenGone_CallsItsEventsOffForThirtyDays()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT15H"));
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        _bench.Run("DELETE FROM gardens WHERE id = @Garden", new { FeedBench.Garden });
        await _bench.Builder.RebuildAsync(feed.Id);
        var gone = Assert.Single(FeedSamples.Events(await _bench.TextAsync(feed))).Value;
        Assert.Contains("STATUS:CANCELLED", gone, StringComparison.Ordinal);
        Assert.Contains("SUMMARY:Called off: Pinch window opens: Maple", gone, StringComparison.Ordinal);
        Assert.DoesNotContain("VALARM", gone, StringComparison.Ordinal);
        _bench.Clock.AdvanceDays(30);
        await _bench.Builder.RebuildAsync(feed.Id);
        Assert.Empty(FeedSamples.Events(await _bench.TextAsync(feed)));
    }

    [Fact]
    public async Task Rebuild_ManyAtOnce_EndsWithEverything()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        await Task.WhenAll(Enumerable.Range(0, 8).Select(round => Task.Run(() =>
            _bench.PlanAsync(round % 2 == 0 ? FeedBench.Garden : FeedBench.OtherGarden, FeedBench.Tree(round, $"Tree {round}", FeedSamples.Pinch())))));
        var before = (await _bench.BodyAsync(feed)).Body;
        await _bench.Builder.RebuildAsync(feed.Id);
        Assert.Equal(before, (await _bench.BodyAsync(feed)).Body);
    }

    private static IEnumerable<string> Summaries(string calendar) => FeedSamples.Lines(calendar)
        .Where(line => line.StartsWith("SUMMARY:", StringComparison.Ordinal)).Select(line => line["SUMMARY:".Length..]).Order();
}
