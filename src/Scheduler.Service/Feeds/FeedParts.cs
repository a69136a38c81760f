using Scheduler.Service.Accounts;

namespace Scheduler.Service.Feeds;

/// <summary>What bringing back an exported account needs of feeds.</summary>
public sealed class FeedParts(FeedTokens tokens) : IFeedParts
{
    public (string Hash, string Sealed) NewToken()
    {
        var token = FeedTokens.New();
        return (FeedTokens.Hash(token), tokens.Seal(token));
    }

    public bool IsReminder(string text) => Reminder.Parse(text) is not null;

    public bool IsTime(string text) => ClockTime.Parse(text) is not null;
}
