using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Microsoft.Extensions.Options;
using MimeKit;

namespace Scheduler.Service.Roads;

/// <summary>The mail server that takes this service's mails (<c>Mail</c> in the settings). Without <see cref="Host"/> there are none.</summary>
public sealed class MailOptions
{
    public const string NoTls = "none";
    public const string StartTls = "starttls";
    public const string Tls = "tls";

    /// <summary>Name of the server. Default: none.</summary>
    public string? Host { get; set; }

    /// <summary>Default: 587.</summary>
    public int Port { get; set; } = 587;

    /// <summary>Sender, such as <c>Scheduler &lt;trees@garden.example&gt;</c>. Must be set with <see cref="Host"/>.</summary>
    public string? From { get; set; }

    /// <summary><c>starttls</c>, <c>tls</c> from the first byte, or <c>none</c>, which is only taken for a server on this machine. Default: <c>starttls</c>.</summary>
    public string Security { get; set; } = StartTls;

    /// <summary>File in PEM with certificates that vouch for the server besides those this machine trusts, for one of your own. Default: none.</summary>
    public string? TrustedCertificates { get; set; }

    /// <summary>Default: none, no log-in.</summary>
    public string? User { get; set; }

    public string? Password { get; set; }

    public bool IsSet => !string.IsNullOrWhiteSpace(Host);

    /// <summary>The sender's bare address.</summary>
    public string? FromAddress => Sender is { } sender ? sender.Address : null;

    internal X509Certificate2Collection Trusted()
    {
        X509Certificate2Collection trusted = [];
        if (!string.IsNullOrWhiteSpace(TrustedCertificates))
            trusted.ImportFromPemFile(TrustedCertificates);
        return trusted;
    }

    internal MailboxAddress? Sender => MailboxAddress.TryParse(From ?? "", out var mailbox) && mailbox.Domain.Length > 0 ? mailbox : null;
}

/// <summary>Finds every fault of the mail settings at start.</summary>
internal sealed class MailOptionsValidator : IValidateOptions<MailOptions>
{
    public ValidateOptionsResult Validate(string? name, MailOptions options)
    {
        var faults = new List<string>();
        if (options.Port is < 1 or > 65535)
            faults.Add("Mail:Port must be 1 to 65535.");
        if (options.Security is not (MailOptions.NoTls or MailOptions.StartTls or MailOptions.Tls))
            faults.Add("Mail:Security must be none, starttls or tls.");
        if (options.IsSet && options.Sender is null)
            faults.Add("Mail:From must be an e-mail address, such as trees@garden.example, when Mail:Host is set.");
        if (options.IsSet && options.Security == MailOptions.NoTls && !IsThisMachine(options.Host!))
            faults.Add("Mail:Security none is only for a server on this machine; use starttls or tls.");
        if (options.User is { Length: > 0 } != options.Password is { Length: > 0 })
            faults.Add("Mail:User and Mail:Password go together: set both or neither.");
        if (options.TrustedCertificates is { Length: > 0 } file && !HoldsCertificates(options))
            faults.Add($"Mail:TrustedCertificates must be a file in PEM with at least one certificate; '{file}' is none.");
        return faults.Count > 0 ? ValidateOptionsResult.Fail(faults) : ValidateOptionsResult.Success;
    }

    private static bool HoldsCertificates(MailOptions options)
    {
        try
        {
            return options.Trusted().Count > 0;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or CryptographicException)
        {
            return false;
        }
    }

    private static bool IsThisMachine(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address);
}
