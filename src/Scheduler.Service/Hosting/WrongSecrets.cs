using System.Threading.RateLimiting;
using Microsoft.Extensions.Options;

namespace Scheduler.Service.Hosting;

/// <summary>
/// Counts wrong access keys and feed addresses per client. Right ones are never counted or held up, so a guesser cannot lock out
/// a neighbor behind the same address.
/// </summary>
public sealed class WrongSecrets(IOptions<RateLimitOptions> options) : IDisposable
{
    private readonly PartitionedRateLimiter<HttpContext> _limiter = PartitionedRateLimiter.Create<HttpContext, string>(
        context => RateLimits.Window(ClientAddress.Of(context), options.Value.WrongSecretsPerMinute, TimeSpan.FromMinutes(1)));

    /// <summary>Counts one wrong secret. False: too many of late, answer 429 (the header that says when is already set).</summary>
    public bool Count(HttpContext context)
    {
        using var lease = _limiter.AttemptAcquire(context);
        if (!lease.IsAcquired)
            RateLimits.SayWhen(context, lease);
        return lease.IsAcquired;
    }

    public void Dispose() => _limiter.Dispose();
}
