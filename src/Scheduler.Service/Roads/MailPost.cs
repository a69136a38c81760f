using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.Extensions.Options;
using MimeKit;

namespace Scheduler.Service.Roads;

/// <summary>Hands mails to the mail server; the only user of its protocol.</summary>
public sealed class MailPost(IOptions<MailOptions> options, PublicRoot root)
{
    private static readonly TimeSpan LongestTry = TimeSpan.FromSeconds(60);

    private X509Certificate2Collection? _trusted;

    /// <summary>Why this host sends no mail; null: it does.</summary>
    public RoadError? Missing => !options.Value.IsSet ? RoadError.NoMailHost : root.Url is null ? RoadError.NoPublicUrl : null;

    public async Task<Carried> SendAsync(MimeMessage mail, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(mail);
        if (Missing is { } missing)
            return Carried.Failed(missing);
        var server = options.Value;
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(LongestTry);
        var trust = new MailTrust(_trusted ??= server.Trusted());
        try
        {
            using var client = new SmtpClient { LocalDomain = server.Sender!.Domain, ServerCertificateValidationCallback = trust.Accepts };
            await client.ConnectAsync(server.Host!, server.Port, Security(server), limit.Token);
            if (server.User is { Length: > 0 } user)
                await client.AuthenticateAsync(user, server.Password!, limit.Token);
            await client.SendAsync(mail, limit.Token);
            await LeaveAsync(client, limit.Token);
            return Carried.Arrived;
        }
        catch (Exception fault) when (!cancel.IsCancellationRequested && Explain(fault) is not null)
        {
            return Carried.Failed(trust.Refusal ?? Explain(fault)!);
        }
    }

    // The server has taken the mail; how it says goodbye changes nothing, and a second try would be a second mail.
    private static async Task LeaveAsync(SmtpClient client, CancellationToken cancel)
    {
        try
        {
            await client.DisconnectAsync(quit: true, cancel);
        }
        catch (Exception fault) when (Explain(fault) is not null)
        {
        }
    }

    private static SecureSocketOptions Security(MailOptions server) => server.Security switch
    {
        MailOptions.NoTls => SecureSocketOptions.None,
        MailOptions.Tls => SecureSocketOptions.SslOnConnect,
        _ => SecureSocketOptions.StartTls
    };

    private static RoadError? Explain(Exception fault) => fault switch
    {
        SmtpCommandException { ErrorCode: SmtpErrorCode.RecipientNotAccepted } refused => RoadError.MailAddress((int)refused.StatusCode),
        SmtpCommandException refused => RoadError.MailRefused((int)refused.StatusCode),
        AuthenticationException => RoadError.MailLogIn,
        SslHandshakeException or NotSupportedException => RoadError.MailNotSecure,
        ProtocolException or ServiceNotConnectedException => RoadError.MailBrokeOff,
        IOException or SocketException => RoadError.MailNotReached,
        OperationCanceledException => RoadError.MailLate,
        _ => null
    };
}
