using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Scheduler.Service.Roads;

/// <summary>Judges the certificate of the mail server in one connection: this machine trusts it, or <c>Mail:TrustedCertificates</c> vouch for it.</summary>
internal sealed class MailTrust(X509Certificate2Collection trusted)
{
    private static readonly Oid ServerAuthentication = new("1.3.6.1.5.5.7.3.1");

    /// <summary>Why the certificate was refused, null: it was not.</summary>
    public RoadError? Refusal { get; private set; }

    public bool Accepts(object sender, X509Certificate? certificate, X509Chain? chain, SslPolicyErrors faults)
    {
        if (faults.HasFlag(SslPolicyErrors.RemoteCertificateChainErrors) && certificate is X509Certificate2 shown && IsVouchedFor(shown, chain))
            faults &= ~SslPolicyErrors.RemoteCertificateChainErrors;
        Refusal = faults == SslPolicyErrors.None ? null : Why(certificate, chain, faults);
        return faults == SslPolicyErrors.None;
    }

    private bool IsVouchedFor(X509Certificate2 shown, X509Chain? chain)
    {
        if (trusted.Count == 0)
            return false;
        using var own = new X509Chain();
        own.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        own.ChainPolicy.CustomTrustStore.AddRange(trusted);
        own.ChainPolicy.ApplicationPolicy.Add(ServerAuthentication);
        // Who vouches for certificates at home keeps no list of revoked ones.
        own.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        if (chain is not null)
            own.ChainPolicy.ExtraStore.AddRange(chain.ChainElements.Select(link => link.Certificate).ToArray());
        return own.Build(shown);
    }

    private static RoadError Why(X509Certificate? shown, X509Chain? chain, SslPolicyErrors faults)
    {
        if (shown is null)
            return RoadError.NoCertificate;
        if (faults.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
            return RoadError.CertificateName;
        return chain?.ChainStatus.Any(link => link.Status == X509ChainStatusFlags.NotTimeValid) == true
            ? RoadError.CertificateOver
            : RoadError.CertificateNotTrusted;
    }
}
