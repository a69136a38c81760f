using System.Threading.RateLimiting;

namespace Scheduler.Service.Roads;

/// <summary>
/// How often an owner may have something sent at once. Without it a test call would be a way to knock at strangers' doors, and a
/// question a way to fill strangers' mailboxes.
/// </summary>
public sealed class RoadLimits : IDisposable
{
    private const int TriesPerHour = 30;
    private const int QuestionsPerDay = 5;

    private readonly PartitionedRateLimiter<string> _tries = Limiter(TriesPerHour, TimeSpan.FromHours(1));
    private readonly PartitionedRateLimiter<string> _questions = Limiter(QuestionsPerDay, TimeSpan.FromDays(1));

    public bool MayTry(Guid accountId) => Take(_tries, accountId.ToString("N"));

    /// <param name="address">Asked too often it is left alone, whoever asks.</param>
    public bool MayAsk(string address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return Take(_questions, address.ToUpperInvariant());
    }

    public void Dispose()
    {
        _tries.Dispose();
        _questions.Dispose();
    }

    private static bool Take(PartitionedRateLimiter<string> limiter, string key)
    {
        using var lease = limiter.AttemptAcquire(key);
        return lease.IsAcquired;
    }

    private static PartitionedRateLimiter<string> Limiter(int permits, TimeSpan window) => PartitionedRateLimiter.Create<string, string>(key =>
        RateLimitPartition.GetFixedWindowLimiter(key, _ => new FixedWindowRateLimiterOptions { PermitLimit = permits, Window = window, QueueLimit = 0 }));
}
