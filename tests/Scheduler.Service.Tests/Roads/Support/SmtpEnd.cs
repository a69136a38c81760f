using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using MimeKit;
using SmtpServer;
using SmtpServer.Authentication;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace Scheduler.Service.Tests.Roads.Support;

/// <summary>A real mail server on a port of this machine. What it takes is parsed by another library than wrote it to the wire.</summary>
internal sealed class SmtpEnd : IAsyncDisposable
{
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _running;

    /// <param name="certificate">With one it speaks TLS, and takes a log-in there.</param>
    /// <param name="fromFirstByte">True: nothing but TLS; false: once the other end asks for it.</param>
    public SmtpEnd(X509Certificate2? certificate = null, bool fromFirstByte = false)
    {
        Port = FreePort();
        var options = new SmtpServerOptionsBuilder().ServerName("localhost").Endpoint(end =>
        {
            end.Endpoint(new IPEndPoint(IPAddress.Loopback, Port));
            if (certificate is not null)
                end.Certificate(certificate).IsSecure(fromFirstByte);
        }).Build();
        var services = new SmtpServer.ComponentModel.ServiceProvider();
        services.Add(new Store(this));
        if (certificate is not null)
            services.Add(new Door(this));
        _running = new SmtpServer.SmtpServer(options, services).StartAsync(_stop.Token);
    }

    public int Port { get; }

    /// <summary>What was sent, as it came over the wire.</summary>
    public ConcurrentQueue<byte[]> Raw { get; } = new();

    /// <summary>Who logged in, in order.</summary>
    public ConcurrentQueue<string> LogIns { get; } = new();

    /// <summary>How many mails came in the clear.</summary>
    public int InTheClear { get; private set; }

    /// <summary>Refuses each mail with a passing error.</summary>
    public bool IsDown { get; set; }

    /// <summary>Takes the mail, then breaks off without saying so.</summary>
    public bool IsMute { get; set; }

    public List<MimeMessage> Mails => [.. Raw.Select(bytes => MimeMessage.Load(new MemoryStream(bytes)))];

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        try
        {
            await _running;
        }
        catch (OperationCanceledException)
        {
        }
        _stop.Dispose();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private sealed class Door(SmtpEnd end) : UserAuthenticator
    {
        public override Task<bool> AuthenticateAsync(ISessionContext context, string user, string password, CancellationToken cancellationToken)
        {
            end.LogIns.Enqueue($"{user}:{password}");
            return Task.FromResult(true);
        }
    }

    private sealed class Store(SmtpEnd end) : MessageStore
    {
        public override Task<SmtpResponse> SaveAsync(
            ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
        {
            if (end.IsDown)
                return Task.FromResult(new SmtpResponse((SmtpReplyCode)451, "try later"));
            end.InTheClear += context.Pipe.IsSecure ? 0 : 1;
            end.Raw.Enqueue(buffer.ToArray());
            return Task.FromResult(end.IsMute ? new SmtpResponse((SmtpReplyCode)451, "try later") : SmtpResponse.Ok);
        }
    }
}
