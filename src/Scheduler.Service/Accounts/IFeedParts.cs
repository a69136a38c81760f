namespace Scheduler.Service.Accounts;

/// <summary>What bringing back an exported feed needs of the feeds: a new secret address, and what counts as a reminder or a time.</summary>
public interface IFeedParts
{
    /// <summary>A new secret, as its hash and as its sealed form.</summary>
    (string Hash, string Sealed) NewToken();

    bool IsReminder(string text);

    /// <summary>Whether it is a time of day at which the events of a feed may begin.</summary>
    bool IsTime(string text);
}
