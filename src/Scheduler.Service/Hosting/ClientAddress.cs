namespace Scheduler.Service.Hosting;

/// <summary>Which client a request is counted for.</summary>
public static class ClientAddress
{
    /// <summary>The address of the connection; for IPv6 its /64 network, which is what one client usually has.</summary>
    public static string Of(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (context.Connection.RemoteIpAddress is not { } address)
            return "local";
        if (address.IsIPv4MappedToIPv6)
            address = address.MapToIPv4();
        var bytes = address.GetAddressBytes();
        return bytes.Length == 16 ? Convert.ToHexStringLower(bytes, 0, 8) : address.ToString();
    }
}
