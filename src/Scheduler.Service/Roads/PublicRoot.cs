using Scheduler.Service.Hosting;

namespace Scheduler.Service.Roads;

/// <summary>
/// What addresses in mails begin with: <c>PublicUrl</c>, else the first address that is listened on while those are loopback only. Never
/// what a request was sent to: its sender chooses that, and mails go to others.
/// </summary>
public sealed class PublicRoot(IConfiguration configuration)
{
    /// <summary>Null: nothing is known that a reader of a mail could reach.</summary>
    public string? Url { get; } = Read(configuration)?.TrimEnd('/');

    private static string? Read(IConfiguration configuration)
    {
        if (configuration["PublicUrl"] is { Length: > 0 } url)
            return url;
        return configuration.OnlyLoopback() ? (configuration["Urls"] ?? "http://127.0.0.1:5080").Split(';')[0].Trim() : null;
    }
}
