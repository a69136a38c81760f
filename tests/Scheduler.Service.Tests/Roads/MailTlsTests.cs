using System.Text.Json.Nodes;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

/// <summary>
/// Mail over TLS to a real server whose certificate was made at home: STARTTLS (RFC 3207) and from the first byte (RFC 8314). The
/// service trusts it only where the settings name what vouches for it.
/// </summary>
public sealed class MailTlsTests : IDisposable
{
    private const string Here = "127.0.0.1";
    private readonly HomeCertificates _home = new();

    public void Dispose() => _home.Dispose();

    [Theory]
    [InlineData("starttls")]
    [InlineData("tls")]
    public async Task Server_WhoseCertificateIsVouchedFor_TakesLogInAndMail(string security)
    {
        using var certificate = _home.ServerOf(Here);
        await using var bench = await RoadBench.StartAsync(
            new SmtpEnd(certificate, security == "tls"), settings: [.. Secure(security), ("Mail:TrustedCertificates", _home.RootFile)]);
        var road = await bench.MakeAsync(Road());
        Assert.Null(road.GetProperty("lastError").GetString());
        var mail = Assert.Single(bench.Smtp.Mails);
        Assert.Equal("Please confirm your bonsai work mails", mail.Subject);
        Assert.Equal(["invented:secret"], bench.Smtp.LogIns);
        Assert.Equal(0, bench.Smtp.InTheClear);
    }

    [Theory]
    [InlineData("starttls", Here, false, false, "is not trusted: whoever runs this host can name a certificate that vouches for it in Mail:TrustedCertificates.")]
    [InlineData("tls", Here, false, false, "is not trusted: whoever runs this host can name a certificate that vouches for it in Mail:TrustedCertificates.")]
    [InlineData("starttls", "mail.garden.example", false, true, "is not for the name in Mail:Host.")]
    [InlineData("tls", Here, true, true, "has expired.")]
    public async Task Server_WhoseCertificateIsRefused_GetsNeitherLogInNorMail_AndTheRoadSaysWhy(string security, string name, bool isOver, bool isVouched, string why)
    {
        using var certificate = _home.ServerOf(name, isOver);
        await using var bench = await RoadBench.StartAsync(
            new SmtpEnd(certificate, security == "tls"), settings: [.. Secure(security), ("Mail:TrustedCertificates", isVouched ? _home.RootFile : null)]);
        var road = await bench.MakeAsync(Road());
        Assert.Equal($"The mail server's certificate {why}", road.GetProperty("lastError").GetString());
        Assert.Empty(bench.Smtp.Raw);
        Assert.Empty(bench.Smtp.LogIns);
    }

    [Fact]
    public void TrustedCertificates_ThatCannotBeRead_AreNamedAtStart()
    {
        File.WriteAllText(_home.RootFile, "no certificate");
        foreach (var file in new[] { _home.RootFile, _home.RootFile + ".absent" })
        {
            var result = new MailOptionsValidator().Validate(null, new MailOptions { TrustedCertificates = file });
            Assert.Equal([$"Mail:TrustedCertificates must be a file in PEM with at least one certificate; '{file}' is none."], result.Failures!);
        }
    }

    private static (string, string?)[] Secure(string security) => [("Mail:Security", security), ("Mail:User", "invented"), ("Mail:Password", "secret")];

    private static JsonObject Road() => new() { ["kind"] = "email", ["address"] = RoadBench.Address };
}
