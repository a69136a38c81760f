using Scheduler.Service.Accounts;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>Carries the digest, and tonight's frost as a mail of its own.</summary>
public sealed class MailRoad(MailPost post, MailWriter writer, AccountStore accounts) : IRoadCarrier
{
    public RoadKind Kind => RoadKind.Email;

    public async Task<Carried> SendAsync(Road road, RoadTarget target, Parcel parcel, CancellationToken cancel) =>
        post.Missing is { } missing ? Carried.Failed(missing) : await post.SendAsync(writer.Digest((MailTarget)target, parcel, await accounts.WordsAsync(road.AccountId, cancel)), cancel);

    public async Task<Carried> TestAsync(Road road, RoadTarget target, CancellationToken cancel) =>
        post.Missing is { } missing ? Carried.Failed(missing) : await post.SendAsync(writer.Test(road, (MailTarget)target, await accounts.WordsAsync(road.AccountId, cancel)), cancel);

    /// <summary>Asks the address whether it wants these mails. The only mail that goes there before it has said so.</summary>
    public async Task<Carried> AskAsync(Road road, MailTarget target, string confirmToken, CancellationToken cancel) =>
        post.Missing is { } missing ? Carried.Failed(missing) : await post.SendAsync(writer.Question(road, target, confirmToken, await accounts.WordsAsync(road.AccountId, cancel)), cancel);
}
