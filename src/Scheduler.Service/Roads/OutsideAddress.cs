using System.Net;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Roads;

/// <summary>An address that an owner names for a webhook or a subscription.</summary>
internal static class OutsideAddress
{
    public const int MaxLength = 2048;

    private const string Wanted = "give a full https address on the public internet, such as https://hooks.example/garden";

    /// <summary>What can be seen from the address itself; where its name leads is judged when it is called.</summary>
    public static string? Read(FieldValue value, bool allowLoopback)
    {
        if (value.Text(MaxLength) is not { } text)
            return null;
        if (!Uri.TryCreate(text, UriKind.Absolute, out var url) || url.Host.Length == 0 || url.Scheme is not ("https" or "http"))
            return value.Refuse<string>(Wanted, new FaultKind("url"));
        if (url.UserInfo.Length > 0 || url.Fragment.Length > 0)
            return value.Refuse<string>("leave out user, password and what follows a #", new FaultKind("bare-url"));
        var isLoopback = url.IsLoopback && allowLoopback;
        if (url.Scheme != "https" && !isLoopback)
            return value.Refuse<string>(Wanted, new FaultKind("url"));
        if (url.HostNameType is UriHostNameType.IPv4 or UriHostNameType.IPv6
            ? !OutsideHttp.MayReach(IPAddress.Parse(url.DnsSafeHost), allowLoopback)
            : IsLocalName(url.IdnHost) && !isLoopback)
        {
            return value.Refuse<string>(Wanted, new FaultKind("url"));
        }
        return url.AbsoluteUri;
    }

    // Names that never leave the local network (RFC 6761, RFC 6762), and names without a dot.
    private static bool IsLocalName(string host)
    {
        var name = host.TrimEnd('.');
        return !name.Contains('.', StringComparison.Ordinal)
            || new[] { ".localhost", ".local", ".internal", ".home.arpa" }.Any(end => name.EndsWith(end, StringComparison.OrdinalIgnoreCase));
    }
}
