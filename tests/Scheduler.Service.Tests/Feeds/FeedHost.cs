using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Service.Feeds;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>The real service behind a real port, with the real feeds; planning is done by the bench.</summary>
internal sealed class FeedHost : IAsyncDisposable
{
    private readonly ServiceFactory _factory;

    private FeedHost(ServiceFactory factory, FeedBench bench, Uri address)
    {
        _factory = factory;
        Bench = bench;
        Anybody = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = address };
        Owner = WithKey(FeedBench.AccessKey);
    }

    public FeedBench Bench { get; }

    /// <summary>The account of the bench.</summary>
    public HttpClient Owner { get; }

    /// <summary>No key.</summary>
    public HttpClient Anybody { get; }

    public static FeedHost Start(params (string Key, string Value)[] settings)
    {
        FeedBench? bench = null;
        var factory = new ServiceFactory
        {
            Replacing = services =>
            {
                services.AddSingleton<IClock>(_ => bench!.Clock);
                services.AddSingleton<IFeedBuilder, FeedBuilder>();
            }
        }.With("Feeds:Host", "scheduler.test");
        foreach (var (key, value) in settings)
            factory.With(key, value);
        bench = new FeedBench(factory.Storage);
        // A port given as a number reaches the server late: the program may then have started already, on another's port.
        factory.UseKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        factory.StartServer();
        return new FeedHost(factory, bench, factory.ClientOptions.BaseAddress);
    }

    /// <summary>Somebody else, signed up just now.</summary>
    public async Task<HttpClient> StrangerAsync()
    {
        using var answer = await Anybody.PostAsJsonAsync("/api/v1/accounts", new { name = "Stranger" });
        return WithKey((await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accessKey").GetString()!);
    }

    public async ValueTask DisposeAsync()
    {
        Owner.Dispose();
        Anybody.Dispose();
        await _factory.DisposeAsync();
    }

    private HttpClient WithKey(string key)
    {
        var client = new HttpClient { BaseAddress = Anybody.BaseAddress };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return client;
    }
}
