using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

public sealed class OutsideHttpTests : IAsyncLifetime
{
    private WebEnd _end = null!;

    public async Task InitializeAsync() => _end = await WebEnd.StartAsync();

    public async Task DisposeAsync() => await _end.DisposeAsync();

    [Theory]
    [InlineData("127.0.0.1")]
    [InlineData("::ffff:127.0.0.1")]
    [InlineData("169.254.169.254")]
    [InlineData("10.1.2.3")]
    [InlineData("8.8.8.8,127.0.0.1")]
    public async Task Name_ThatLeadsToAPrivateAddress_IsNotCalled(string addresses)
    {
        using var client = new HttpClient(OutsideHttp.Handler(false, (_, _) => Task.FromResult(addresses.Split(',').Select(IPAddress.Parse).ToArray())));
        var fault = await Assert.ThrowsAnyAsync<HttpRequestException>(() => client.GetAsync(new Uri($"http://hooks.example:{_end.Address.Port}/")));
        Assert.Contains("not on the public internet", OutsideHttp.Explain(fault)?.Text, StringComparison.Ordinal);
        Assert.Empty(_end.Requests);
    }

    [Theory]
    [InlineData("http://127.0.0.1:{0}/")]
    [InlineData("http://[::ffff:127.0.0.1]:{0}/")]
    [InlineData("http://localhost:{0}/")]
    [InlineData("http://2130706433:{0}/")]
    [InlineData("http://0x7f.1:{0}/")]
    public async Task Address_OfThisMachine_IsNotCalledInAnySpelling(string url)
    {
        using var client = new HttpClient(OutsideHttp.Handler(false));
        await Assert.ThrowsAnyAsync<HttpRequestException>(() => client.GetAsync(new Uri(string.Format(System.Globalization.CultureInfo.InvariantCulture, url, _end.Address.Port))));
        Assert.Empty(_end.Requests);
    }

    // The name is looked up once, and the connection goes to the address that was judged: a second answer never counts.
    [Fact]
    public async Task Name_ThatAnswersDifferentlyTheSecondTime_IsConnectedToWhatWasJudged()
    {
        var lookUps = 0;
        Task<IPAddress[]> Changing(string host, CancellationToken cancel) =>
            Task.FromResult<IPAddress[]>([++lookUps == 1 ? IPAddress.Loopback : IPAddress.Parse("10.0.0.1")]);
        using var client = new HttpClient(OutsideHttp.Handler(true, Changing));
        using var answer = await client.GetAsync(new Uri($"http://hooks.example:{_end.Address.Port}/"));
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        Assert.Equal(1, lookUps);
        _end.Answer = context => { context.Response.Headers.Connection = "close"; return Task.CompletedTask; };
        await client.GetAsync(new Uri($"http://hooks.example:{_end.Address.Port}/"));
        await Assert.ThrowsAnyAsync<HttpRequestException>(() => client.GetAsync(new Uri($"http://hooks.example:{_end.Address.Port}/")));
        Assert.Equal(2, lookUps);
    }

    [Fact]
    public async Task Redirect_IsNotFollowed()
    {
        await using var other = await WebEnd.StartAsync();
        _end.Answer = context => { context.Response.Redirect(other.Address.AbsoluteUri, permanent: false, preserveMethod: true); return Task.CompletedTask; };
        using var client = new HttpClient(OutsideHttp.Handler(true));
        using var answer = await client.PostAsync(_end.Address, null);
        Assert.Equal(HttpStatusCode.TemporaryRedirect, answer.StatusCode);
        Assert.Empty(other.Requests);
    }

    [Fact]
    public async Task Certificate_ThatNobodyVouchesFor_IsRefused()
    {
        using var key = RSA.Create(2048);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using var made = request.CreateSelfSigned(DateTimeOffset.UnixEpoch.AddYears(50), DateTimeOffset.UnixEpoch.AddYears(100));
        using var certificate = X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pfx), null);
        await using var secure = await WebEnd.StartAsync(listen => listen.UseHttps(certificate));
        using var client = new HttpClient(OutsideHttp.Handler(true));
        var fault = await Assert.ThrowsAnyAsync<HttpRequestException>(() => client.GetAsync(secure.Address));
        Assert.Contains("certificate", OutsideHttp.Explain(fault)?.Text, StringComparison.Ordinal);
        Assert.Empty(secure.Requests);
    }

    [Fact]
    public async Task Headers_BeyondTheLimit_EndTheTry()
    {
        _end.Answer = context => { context.Response.Headers["x-long"] = new string('x', 20_000); return Task.CompletedTask; };
        using var client = new HttpClient(OutsideHttp.Handler(true));
        var fault = await Assert.ThrowsAnyAsync<HttpRequestException>(() => client.GetAsync(_end.Address));
        Assert.NotNull(OutsideHttp.Explain(fault));
    }
}
