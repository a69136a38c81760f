using System.Net;
using System.Net.Sockets;

namespace Scheduler.Service.Roads;

/// <summary>
/// Whether an address lies on the public internet. What the registries of special-purpose addresses keep for other uses does not
/// (RFC 6890 as updated: "IANA IPv4/IPv6 Special-Purpose Address Registry"), nor does multicast, nor an IPv6 form that carries an IPv4
/// address inside, unless it is the mapped form of a public one.
/// </summary>
public static class PublicAddress
{
    private static readonly IPNetwork[] SpecialV4 = Networks(
        "0.0.0.0/8", "10.0.0.0/8", "100.64.0.0/10", "127.0.0.0/8", "169.254.0.0/16", "172.16.0.0/12", "192.0.0.0/24", "192.0.2.0/24",
        "192.31.196.0/24", "192.52.193.0/24", "192.88.99.0/24", "192.168.0.0/16", "192.175.48.0/24", "198.18.0.0/15", "198.51.100.0/24",
        "203.0.113.0/24", "224.0.0.0/4", "240.0.0.0/4");

    /// <summary>All that is handed out for the public internet; the rest of IPv6 is special or not in use (RFC 4291 section 2.4).</summary>
    private static readonly IPNetwork GlobalV6 = IPNetwork.Parse("2000::/3");

    // Teredo, benchmarking, ORCHID and the like; documentation; 6to4, which carries an IPv4 address; direct delegation of AS112.
    private static readonly IPNetwork[] SpecialV6 = Networks("2001::/23", "2001:db8::/32", "2002::/16", "2620:4f:8000::/48", "3fff::/20");

    public static bool IsPublic(IPAddress address)
    {
        ArgumentNullException.ThrowIfNull(address);
        if (address.IsIPv4MappedToIPv6)
            address = address.MapToIPv4();
        return address.AddressFamily switch
        {
            AddressFamily.InterNetwork => !SpecialV4.Any(network => network.Contains(address)),
            AddressFamily.InterNetworkV6 => GlobalV6.Contains(address) && !SpecialV6.Any(network => network.Contains(address)),
            _ => false
        };
    }

    private static IPNetwork[] Networks(params string[] networks) => [.. networks.Select(network => IPNetwork.Parse(network))];
}
