using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Storage;

namespace Scheduler.Pages.Tests.Support;

/// <summary>
/// The real service on recorded weather, with a database of its own and its clock stopped. The demonstration's account has invented
/// trees in two gardens. With <see cref="Listen"/> it can be reached by a browser.
/// </summary>
public class PagesService : WebApplicationFactory<Program>
{
    /// <summary>A spring day on which the demonstration has open, closing and coming work.</summary>
    public const string SpringDay = "2026-04-08";

    private readonly Dictionary<string, string?> _settings = new()
    {
        ["Clock:AsOf"] = SpringDay, ["Demo"] = "true", ["Weather:Sources:0"] = "recorded", ["Logging:LogLevel:Default"] = "Warning"
    };

    private readonly string _folder = Path.Combine(Path.GetTempPath(), $"scheduler-pages-{Guid.NewGuid():N}");

    public PagesService() => _settings["Storage:Folder"] = _folder;

    public PagesService With(string key, string? value)
    {
        _settings[key] = value;
        return this;
    }

    /// <summary>Starts on a free port of this machine and gives its address.</summary>
    public Uri Listen()
    {
        // A port given as a number reaches the server late: the program may then have started already, on another's port.
        UseKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        StartServer();
        return ClientOptions.BaseAddress;
    }

    /// <summary>A new access key to the demonstration's account.</summary>
    public async Task<string> DemoKeyAsync()
    {
        await using var connection = await Services.GetRequiredService<Database>().OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = "SELECT id FROM accounts ORDER BY created_at, id LIMIT 1";
        var (key, shown) = KeysApi.NewKey(Guid.Parse((string)(await command.ExecuteScalarAsync())!), "test", Services.GetRequiredService<IClock>().GetCurrentInstant());
        await Services.GetRequiredService<KeyStore>().AddAsync(key);
        return shown;
    }

    /// <summary>Id of the first row of a table, such as gardens or trees.</summary>
    public async Task<string> FirstAsync(string table)
    {
        await using var connection = await Services.GetRequiredService<Database>().OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = $"SELECT id FROM {table} ORDER BY id LIMIT 1";
        return Guid.Parse((string)(await command.ExecuteScalarAsync())!).ToString();
    }

    /// <summary>A new account without gardens; its access key.</summary>
    public async Task<string> NewAccountAsync(string name = "Invented Owner")
    {
        using var client = CreateClient();
        using var answer = await client.PostAsJsonAsync("/api/v1/accounts", new { name });
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accessKey").GetString()!;
    }

    /// <summary>A client of the API.</summary>
    public HttpClient ApiClient(string key)
    {
        var client = CreateClient();
        client.DefaultRequestHeaders.Authorization = new("Bearer", key);
        return client;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        foreach (var (key, value) in _settings)
            builder.UseSetting(key, value);
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (!disposing || !Directory.Exists(_folder))
            return;
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }
}
