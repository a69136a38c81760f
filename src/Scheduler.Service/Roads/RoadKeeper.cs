using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>Makes and changes roads and moves them from one state to the next.</summary>
public sealed class RoadKeeper(
    RoadStore store, Outbox outbox, RoadSeal seal, MailRoad mail, IEnumerable<IRoadCarrier> carriers, RoadLimits limits, RoadBell bell, IClock clock)
{
    private static readonly Duration QuestionHolds = Duration.FromDays(7);

    private readonly Dictionary<RoadKind, IRoadCarrier> _carriers = carriers.ToDictionary(carrier => carrier.Kind);

    /// <summary>A browser's subscription is in use at once; a mail address must say yes first, a webhook must take a test.</summary>
    internal async Task<(Road Road, string? Secret)> CreateAsync(Guid accountId, RoadDraft draft, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var target = Target(draft);
        var road = new Road
        {
            Id = NewId.Next(),
            AccountId = accountId,
            Kind = draft.Kind,
            State = RoadState.Unconfirmed,
            Settings = draft.Settings,
            TargetSealed = seal.Close(target),
            CreatedAt = now
        };
        if (draft.Kind == RoadKind.Push)
            road = await OnAsync(road, cancel);
        await store.AddAsync(road, LeaveHash(target), cancel);
        if (target is MailTarget mailTarget)
            await AskAsync(road, mailTarget, cancel);
        bell.Ring();
        return (await FreshAsync(road, cancel), (target as WebhookTarget)?.Secret);
    }

    internal async Task<(Road Road, string? Secret)> ChangeAsync(Road road, RoadDraft draft, CancellationToken cancel)
    {
        var target = seal.Open(road.TargetSealed);
        var changed = road with { Settings = draft.Settings };
        var moved = Moved(draft, target);
        if (moved is not null)
        {
            target = moved;
            changed = changed with { TargetSealed = seal.Close(moved), State = RoadState.Unconfirmed };
            if (moved is PushTarget)
                changed = await OnAsync(changed, cancel);
        }
        if (draft.On == false && changed.State == RoadState.On)
            changed = changed with { State = RoadState.Paused };
        else if (draft.On == true && changed.State == RoadState.Paused)
            changed = await OnAsync(changed, cancel);
        await store.ChangeAsync(changed, LeaveHash(target), cancel);
        if (moved is MailTarget mailTarget)
            await AskAsync(changed, mailTarget, cancel);
        bell.Ring();
        return (await FreshAsync(changed, cancel), (moved as WebhookTarget)?.Secret);
    }

    /// <summary>A new secret for a webhook; the old one signs nothing more, and a test must show that the other end has the new one.</summary>
    public async Task<(Road Road, string Secret)> RotateAsync(Road road, WebhookTarget target, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        ArgumentNullException.ThrowIfNull(target);
        var rotated = target with { Secret = WebhookSignature.NewSecret() };
        var changed = road with { TargetSealed = seal.Close(rotated), State = RoadState.Unconfirmed };
        await store.ChangeAsync(changed, null, cancel);
        return (await FreshAsync(changed, cancel), rotated.Secret);
    }

    /// <summary>Sends a test, or to an address that has not said yes the question again. A webhook that takes it is in use from then on.</summary>
    public async Task<Carried> TestAsync(Road road, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        if (seal.Open(road.TargetSealed) is not { } target)
            return Carried.Failed(RoadError.KeysLost);
        if (target is PushTarget { Endpoint.Length: 0 })
            return Carried.Failed(RoadError.NoSubscription);
        if (target is MailTarget mailTarget && road.State is RoadState.Unconfirmed or RoadState.Unsubscribed)
            return await AskAsync(road, mailTarget, cancel);
        var carried = await _carriers[road.Kind].TestAsync(road, target, cancel);
        await outbox.TestedAsync(road.Id, carried.Error, clock.GetCurrentInstant());
        if (carried.Error is null && road.State is RoadState.Unconfirmed or RoadState.Gone)
            await store.ChangeAsync(await OnAsync(road, cancel), null, cancel);
        bell.Ring();
        return carried;
    }

    /// <summary>The link of the question was followed.</summary>
    public async Task ConfirmAsync(Road road, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        await store.ChangeAsync(await OnAsync(road, cancel), LeaveHash(seal.Open(road.TargetSealed)), cancel);
        bell.Ring();
    }

    /// <summary>The link that ends mails was followed.</summary>
    public Task LeaveAsync(Road road, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        return store.ChangeAsync(road with { State = RoadState.Unsubscribed }, LeaveHash(seal.Open(road.TargetSealed)), cancel);
    }

    internal static string? LeaveHash(RoadTarget? target) => target is MailTarget mail ? Secrets.Hash(mail.LeaveToken) : null;

    private async Task<Carried> AskAsync(Road road, MailTarget target, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var asked = Carried.Failed(RoadError.AskedTooOften);
        if (limits.MayAsk(target.Address))
        {
            var token = Secrets.New("");
            await store.ExpectAsync(road.Id, Secrets.Hash(token), now + QuestionHolds, cancel);
            asked = await mail.AskAsync(road, target, token, cancel);
        }
        await outbox.TestedAsync(road.Id, asked.Error, asked.Error is null ? null : now);
        return asked;
    }

    private async Task<Road> OnAsync(Road road, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var zone = RoadRun.ZoneOf(road.Settings, await outbox.GardensAsync(road.AccountId, cancel));
        return road with { State = RoadState.On, OnSince = now, DigestOn = road.Settings.Digest?.LastDue(now, zone) };
    }

    private static RoadTarget Target(RoadDraft draft) => draft.Kind switch
    {
        RoadKind.Email => new MailTarget(draft.Address!, Secrets.New("")),
        RoadKind.Push => draft.Subscription!,
        _ => new WebhookTarget(draft.Url!, WebhookSignature.NewSecret())
    };

    // A new end must be confirmed anew, and gets secrets of its own: the old one knows the old ones.
    private static RoadTarget? Moved(RoadDraft draft, RoadTarget? target) => draft.Kind switch
    {
        RoadKind.Email when draft.Address is { } address && address != (target as MailTarget)?.Address => new MailTarget(address, Secrets.New("")),
        RoadKind.Push when draft.Subscription is { } subscription && subscription != target as PushTarget => subscription,
        RoadKind.Webhook when draft.Url is { } url && url != (target as WebhookTarget)?.Url => new WebhookTarget(url, WebhookSignature.NewSecret()),
        _ => null
    };

    private async Task<Road> FreshAsync(Road road, CancellationToken cancel) => await store.FindAsync(road.AccountId, road.Id, cancel) ?? road;
}
