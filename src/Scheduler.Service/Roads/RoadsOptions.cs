namespace Scheduler.Service.Roads;

/// <summary>What roads may do (<c>Roads</c> in the settings).</summary>
public sealed class RoadsOptions
{
    /// <summary>
    /// Takes webhooks and subscriptions on this machine's loopback addresses, and there without TLS: for trying out and for tests.
    /// Default: false.
    /// </summary>
    public bool AllowLoopback { get; set; }

    /// <summary>Who a push service may turn to, a <c>mailto:</c> or <c>https:</c> address (RFC 8292). Default: <c>PublicUrl</c>, else <c>Mail:From</c>.</summary>
    public string? Contact { get; set; }
}
