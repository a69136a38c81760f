using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Scheduler.Service.Tests.Roads.Support;

/// <summary>Certificates as a host at home makes them: one that vouches, and one of a mail server on this machine that it vouches for.</summary>
internal sealed class HomeCertificates : IDisposable
{
    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly X509Certificate2 _root;

    public HomeCertificates()
    {
        var request = new CertificateRequest("CN=Invented home authority", _key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, true));
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(request.PublicKey, false));
        _root = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddYears(-2), DateTimeOffset.UtcNow.AddYears(1));
        File.WriteAllText(RootFile, _root.ExportCertificatePem());
    }

    /// <summary>The one that vouches, in PEM.</summary>
    public string RootFile { get; } = Path.Combine(Path.GetTempPath(), $"scheduler-root-{Guid.NewGuid():N}.pem");

    /// <param name="name">A host name or an address.</param>
    /// <param name="isOver">True: it ended yesterday.</param>
    public X509Certificate2 ServerOf(string name, bool isOver = false)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=Invented mail server", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        if (IPAddress.TryParse(name, out var address))
            names.AddIpAddress(address);
        else
            names.AddDnsName(name);
        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid("1.3.6.1.5.5.7.3.1")], false));
        var end = DateTimeOffset.UtcNow.AddDays(isOver ? -1 : 30);
        using var made = request.Create(_root, DateTimeOffset.UtcNow.AddYears(-1), end, Guid.NewGuid().ToByteArray());
        using var whole = made.CopyWithPrivateKey(key);
        return X509CertificateLoader.LoadPkcs12(whole.Export(X509ContentType.Pfx), null);
    }

    public void Dispose()
    {
        _root.Dispose();
        _key.Dispose();
        File.Delete(RootFile);
    }
}
