using System.Net;
using System.Net.Http.Headers;
using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Service.Feeds;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>The feeds alone behind a real port: the service's own storage, limits and endpoints, an account named by its id.</summary>
internal sealed class FeedHost : IAsyncDisposable
{
    private readonly WebApplication _app;

    private FeedHost(WebApplication app, FeedBench bench)
    {
        _app = app;
        Bench = bench;
        Anybody = new HttpClient(new SocketsHttpHandler { AutomaticDecompression = DecompressionMethods.None, UseCookies = false }) { BaseAddress = new Uri(app.Urls.Single()) };
        Owner = Client(FeedBench.Account);
    }

    public FeedBench Bench { get; }
    public HttpClient Owner { get; }
    public HttpClient Anybody { get; }

    public static async Task<FeedHost> StartAsync(params (string Key, string Value)[] settings)
    {
        var bench = new FeedBench();
        var builder = WebApplication.CreateBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        builder.Configuration.AddInMemoryCollection(settings.Append(("Storage:Folder", bench.Folder))
            .Append(("Feeds:Host", "scheduler.test")).Select(pair => KeyValuePair.Create(pair.Item1, (string?)pair.Item2)));
        builder.Services.AddSingleton<IClock>(bench.Clock);
        builder.Services.AddSingleton<ITechniqueNames, SomeTechniques>();
        builder.Services.ConfigureHttpJsonOptions(json => Json.Configure(json.SerializerOptions));
        builder.Services.AddAuthentication("test").AddScheme<AuthenticationSchemeOptions, AccountById>("test", null);
        builder.Services.AddAuthorization();
        builder.AddStorage();
        builder.AddRateLimits();
        builder.AddFeeds();
        var app = builder.Build();
        app.UseAuthentication();
        app.UseAuthorization();
        app.UseFeeds();
        app.MapFeeds();
        await app.StartAsync();
        return new FeedHost(app, bench);
    }

    public HttpClient Client(Guid account)
    {
        var client = new HttpClient { BaseAddress = Anybody.BaseAddress };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", account.ToString());
        return client;
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        Owner.Dispose();
        Anybody.Dispose();
        Bench.Dispose();
    }

    private sealed class SomeTechniques : ITechniqueNames
    {
        private static readonly string[] Ids = ["tip-pinch", "repotting"];

        public bool Exists(string id) => Ids.Contains(id);

        public IReadOnlyList<string> Nearest(string id) => Ids;

        public IReadOnlyCollection<string> Modes(string techniqueId) => [];
    }

    private sealed class AccountById(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory log, UrlEncoder encoder)
        : AuthenticationHandler<AuthenticationSchemeOptions>(options, log, encoder)
    {
        protected override Task<AuthenticateResult> HandleAuthenticateAsync()
        {
            var header = Request.Headers.Authorization.ToString();
            if (header.Length == 0)
                return Task.FromResult(AuthenticateResult.NoResult());
            Claim[] claims = [new(Caller.AccountClaim, header["Bearer ".Length..]), new(Caller.KeyClaim, Guid.Empty.ToString())];
            return Task.FromResult(AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(new ClaimsIdentity(claims, "test")), "test")));
        }
    }
}
