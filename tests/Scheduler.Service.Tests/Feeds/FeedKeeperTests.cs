using Microsoft.AspNetCore.DataProtection;
using NodaTime;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class FeedKeeperTests : IDisposable
{
    private readonly FeedBench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task Create_Token_IsNowhereInTheDatabase()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        var token = _bench.Tokens.Open(feed.TokenSealed)!;
        Assert.Matches("^[A-Za-z0-9_-]{43}$", token);
        await using var connection = await _bench.Database.OpenAsync();
        var row = Dapper.SqlMapper.QuerySingle<string>(connection,
            "SELECT token_hash || token_sealed || CAST(body AS TEXT) || name FROM feeds");
        Assert.DoesNotContain(token, row, StringComparison.Ordinal);
        Assert.Null(new FeedTokens(new EphemeralDataProtectionProvider()).Open(feed.TokenSealed));
    }

    [Fact]
    public async Task Rotate_OldToken_IsUnknown()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        var rotated = await _bench.Keeper.RotateAsync(feed);
        Assert.Null(await _bench.Bodies.FindAsync(FeedTokens.Hash(_bench.Tokens.Open(feed.TokenSealed)!)));
        Assert.Equal(feed.Id, (await _bench.BodyAsync(rotated)).Id);
    }

    [Fact]
    public async Task Change_Name_TouchesNoEvent()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("P1D"));
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        var before = await _bench.TextAsync(feed);
        _bench.Clock.AdvanceDays(1);
        var changed = await _bench.Keeper.ChangeAsync(feed, feed.Settings with { Name = "Trees" });
        var after = await _bench.TextAsync(changed);
        Assert.Equal(FeedSamples.Events(before), FeedSamples.Events(after));
        Assert.Contains("X-WR-CALNAME:Trees", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Change_Reminders_StampsEventsAndKeepsSequence()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("P1D"));
        await _bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        _bench.Clock.AdvanceDays(1);
        var changed = await _bench.Keeper.ChangeAsync(feed, FeedBench.Settings("PT15H"));
        var made = FeedSamples.Events(await _bench.TextAsync(changed)).Values.Single();
        Assert.Contains("LAST-MODIFIED:20210302T060000Z", made, StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:0", made, StringComparison.Ordinal);
        Assert.Contains("TRIGGER:-PT15H", made, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Store_OtherAccount_FindsNothing()
    {
        var feed = await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings());
        var stranger = Guid.NewGuid();
        Assert.Null(await _bench.Store.FindAsync(stranger, feed.Id));
        Assert.Empty(await _bench.Store.ListAsync(stranger, null, 10));
        Assert.False(await _bench.Store.DeleteAsync(stranger, feed.Id));
        Assert.Equal(feed.Id, (await _bench.Store.FindAsync(FeedBench.Account, feed.Id))!.Id);
    }

    [Fact]
    public async Task List_Pages_FollowEachOther()
    {
        var made = new List<Guid>();
        for (var number = 0; number < 5; number++)
        {
            _bench.Clock.Advance(Duration.FromSeconds(number % 2));
            made.Add((await _bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings())).Id);
        }
        var first = await _bench.Store.ListAsync(FeedBench.Account, null, 3);
        var second = await _bench.Store.ListAsync(FeedBench.Account, first[^1].Id, 3);
        Assert.Equal(3, first.Count);
        Assert.Equal(made.Order(), first.Concat(second).Select(feed => feed.Id).Order());
    }
}
