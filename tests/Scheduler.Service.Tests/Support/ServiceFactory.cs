using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Support;

/// <summary>
/// The real service on a database of its own in a temporary folder, its clock stopped at <see cref="Today"/>. Neighboring folders are
/// replaced by recorders unless a test asks for the real ones.
/// </summary>
public class ServiceFactory : WebApplicationFactory<Program>
{
    public const string Today = "2026-04-15";

    private readonly Dictionary<string, string?> _settings = new() { ["Clock:AsOf"] = Today, ["Demo"] = "false", ["Logging:LogLevel:Default"] = "Warning" };

    public ServiceFactory()
    {
        _settings["Storage:Folder"] = Folder;
        // To try the whole suite on the other engine; its own tests ask for it themselves.
        if (Environment.GetEnvironmentVariable("SCHEDULER_TESTS_ON") == "postgres")
            OnPostgres();
    }

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), $"scheduler-tests-{Guid.NewGuid():N}");

    public RecordingPlanner Planner { get; } = new();

    public RecordingWeather Weather { get; } = new();

    public RecordingFeeds Feeds { get; } = new();

    /// <summary>False: Plans, Weather, Feeds and Catalog are the real ones.</summary>
    public bool Recorders { get; init; } = true;

    /// <summary>Further registrations of a test, last of all.</summary>
    public Action<IServiceCollection>? Replacing { get; init; }

    public ServiceFactory With(string key, string? value)
    {
        _settings[key] = value;
        return this;
    }

    /// <summary>Where the service keeps everything, for tests that look at it from beside.</summary>
    public StorageOptions Storage => new()
    {
        Folder = Folder,
        Provider = _settings.GetValueOrDefault("Storage:Provider") ?? "sqlite",
        ConnectionString = _settings.GetValueOrDefault("Storage:ConnectionString")
    };

    public ServiceFactory OnPostgres() => With("Storage:Provider", "postgres").With("Storage:ConnectionString", PostgresServer.NewDatabase());

    /// <summary>A client without a key.</summary>
    public HttpClient Anonymous() => CreateClient(new WebApplicationFactoryClientOptions { AllowAutoRedirect = false });

    /// <summary>Signs up and gives a client that carries the new key.</summary>
    public async Task<HttpClient> SignUpAsync(string name = "Invented Owner")
    {
        using var anonymous = Anonymous();
        using var answer = await anonymous.PostAsJsonAsync("/api/v1/accounts", new { name });
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return WithKey((await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accessKey").GetString()!);
    }

    public HttpClient WithKey(string key)
    {
        var client = Anonymous();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return client;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        foreach (var (key, value) in _settings)
            builder.UseSetting(key, value);
        builder.ConfigureTestServices(services =>
        {
            if (Recorders)
            {
                services.AddSingleton<IGardenPlanner>(Planner);
                services.AddSingleton<IGardenWeather>(Weather);
                services.AddSingleton<IFeedBuilder>(Feeds);
                services.AddSingleton<ISpeciesNames, KnownNames>();
                services.AddSingleton<ITechniqueNames, KnownNames>();
                services.AddSingleton<IFeedParts, PlainFeedParts>();
                services.AddSingleton<IWorkPromises, NoPromises>();
            }
            Replacing?.Invoke(services);
        });
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (!disposing || !Directory.Exists(Folder))
            return;
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(Folder, recursive: true);
    }
}
