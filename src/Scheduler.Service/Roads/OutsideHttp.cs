using System.Diagnostics.Metrics;
using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Options;

namespace Scheduler.Service.Roads;

/// <summary>
/// The way out to addresses that owners name. The address is looked up here and judged before the connection is made to that very
/// address, so that no name can point elsewhere between check and use. No redirects, no proxy, no cookies, short limits.
/// </summary>
internal static class OutsideHttp
{
    public const string Client = "roads";

    /// <summary>From the look-up to the end of the answer.</summary>
    public static readonly TimeSpan LongestTry = TimeSpan.FromSeconds(15);

    private const int LargestHeadersKiB = 16;
    private const int LargestAnswerBytes = 64 * 1024;

    public static void AddOutsideHttp(this IServiceCollection services) =>
        services.AddHttpClient(Client, Limit)
            .ConfigurePrimaryHttpMessageHandler(provider => Handler(provider.GetRequiredService<IOptions<RoadsOptions>>().Value.AllowLoopback))
            // Its log would hold addresses, and who knows a push endpoint or a webhook's address can write there.
            .RemoveAllLoggers();

    public static void Limit(HttpClient client)
    {
        client.Timeout = LongestTry;
        client.MaxResponseContentBufferSize = LargestAnswerBytes;
        client.DefaultRequestHeaders.UserAgent.ParseAdd("Scheduler/1");
    }

    internal static SocketsHttpHandler Handler(bool allowLoopback, Func<string, CancellationToken, Task<IPAddress[]>>? lookUp = null) => new()
    {
        AllowAutoRedirect = false,
        UseProxy = false,
        UseCookies = false,
        MeterFactory = Meters.Instance,
        AutomaticDecompression = DecompressionMethods.None,
        MaxResponseHeadersLength = LargestHeadersKiB,
        ConnectTimeout = TimeSpan.FromSeconds(10),
        PooledConnectionLifetime = TimeSpan.FromMinutes(2),
        ConnectCallback = (context, cancel) => ConnectAsync(context.DnsEndPoint, allowLoopback, lookUp ?? Dns.GetHostAddressesAsync, cancel)
    };

    public static bool MayReach(IPAddress address, bool allowLoopback) =>
        PublicAddress.IsPublic(address)
        || allowLoopback && IPAddress.IsLoopback(address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address);

    /// <summary>Why nothing arrived; null: a bug of ours.</summary>
    public static RoadError? Explain(Exception fault) => fault switch
    {
        _ when Chain(fault).OfType<AddressRefusedException>().Any() => RoadError.NotPublic,
        HttpRequestException { HttpRequestError: HttpRequestError.NameResolutionError } => RoadError.NameUnknown,
        HttpRequestException { HttpRequestError: HttpRequestError.SecureConnectionError } => RoadError.NotSecure,
        HttpRequestException { HttpRequestError: HttpRequestError.ConfigurationLimitExceeded } => RoadError.AnswerTooLarge,
        HttpRequestException or IOException => RoadError.NotReached,
        OperationCanceledException => RoadError.Late,
        _ => null
    };

    private static async ValueTask<Stream> ConnectAsync(
        DnsEndPoint end, bool allowLoopback, Func<string, CancellationToken, Task<IPAddress[]>> lookUp, CancellationToken cancel)
    {
        var addresses = IPAddress.TryParse(end.Host, out var literal) ? [literal] : await lookUp(end.Host, cancel);
        // One that is not public spoils the name: an honest one has no use for such a mixture.
        if (addresses.Length == 0 || !addresses.All(address => MayReach(address, allowLoopback)))
            throw new AddressRefusedException();
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        try
        {
            await socket.ConnectAsync(addresses, end.Port, cancel);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private static IEnumerable<Exception> Chain(Exception fault)
    {
        for (Exception? one = fault; one is not null; one = one.InnerException)
            yield return one;
    }
}

/// <summary>Keeps these calls out of the metrics that all can read: they are counted by host, and which hosts owners name is theirs.</summary>
file sealed class Meters : IMeterFactory
{
    public static readonly Meters Instance = new();

    private readonly Meter _meter = new("Scheduler.Roads");

    public Meter Create(MeterOptions options) => _meter;

    // One for all handlers, for as long as the service runs.
    public void Dispose()
    {
    }
}

/// <summary>An address was refused before anything was sent there.</summary>
public sealed class AddressRefusedException() : IOException("The address is not on the public internet.");
