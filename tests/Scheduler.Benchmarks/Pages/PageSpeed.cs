using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Benchmarks.Pages;

/// <summary>
/// How long the server takes for the page of the day of a garden with sixty trees: from the request to the last byte of the page, within
/// one process, with the weather of thirty years in the database. First after a change (the season is dated again), then as it is left.
/// </summary>
internal static partial class PageSpeed
{
    private const int TreeCount = 60;
    private const double BarMs = 25;
    private const int Turns = 100;
    private static readonly string[] Species =
        ["acer-palmatum", "acer-buergerianum", "ulmus-parvifolia", "zelkova-serrata", "fagus-sylvatica", "pinus-thunbergii", "larix", "prunus-mume", "juniperus-chinensis", "olea-europaea"];

    public static async Task<int> PrintAsync(TextWriter output)
    {
        await using var service = new Measured();
        using var client = service.CreateClient(new WebApplicationFactoryClientOptions { AllowAutoRedirect = false });
        var key = await NewAccountAsync(client);
        client.DefaultRequestHeaders.Authorization = new("Bearer", key);
        var garden = await MakeGardenAsync(service, client);
        client.DefaultRequestHeaders.Authorization = null;
        await SignInAsync(client, key);
        var path = $"/today?garden={garden}";
        var page = "";
        var changed = new List<double>();
        for (var turn = 0; turn < 12; turn++)
        {
            // Planning is what a change of the log, a tree or the weather ends in; it is done before the page is asked for.
            var id = Guid.CreateVersion7();
            var now = service.Services.GetRequiredService<IClock>().GetCurrentInstant();
            await service.Services.GetRequiredService<ObservationStore>().AddAsync(
                new StoredObservation(id, garden, null, new LocalDate(2026, 5, 9), $$"""{"id":"{{id}}","date":"2026-05-09","soilDry":true}""", now));
            await service.Services.GetRequiredService<IGardenPlanner>().ReplanAsync(garden);
            changed.Add(await TimeAsync());
        }
        var left = new List<double>();
        for (var turn = 0; turn < Turns; turn++)
            left.Add(await TimeAsync());
        var ms = Median(left);
        await output.WriteLineAsync(
            $"today {ms:0.0} ms (bar {BarMs:0}): {TreeCount} trees, {page.Length / 1024.0:0} kB; {Median(changed.Skip(4)):0.0} ms the first time after a change; {Count(page)} buttons");
        return ms <= BarMs ? 0 : 1;

        async Task<double> TimeAsync()
        {
            var since = Stopwatch.GetTimestamp();
            using var answer = await client.GetAsync(path);
            page = await answer.Content.ReadAsStringAsync();
            var took = Stopwatch.GetElapsedTime(since).TotalMilliseconds;
            answer.EnsureSuccessStatusCode();
            return took;
        }
    }

    private static async Task<string> NewAccountAsync(HttpClient client)
    {
        using var answer = await client.PostAsJsonAsync("/api/v1/accounts", new { name = "Invented Owner" });
        return (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accessKey").GetString()!;
    }

    private static async Task<Guid> MakeGardenAsync(Measured service, HttpClient client)
    {
        using var made = await client.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented garden", latitude = 52.0, longitude = 5.0, workDays = new[] { new { day = "saturday", minutes = 180 } } });
        var garden = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetGuid();
        var trees = service.Services.GetRequiredService<TreeStore>();
        var now = service.Services.GetRequiredService<IClock>().GetCurrentInstant();
        for (var i = 0; i < TreeCount; i++)
        {
            await trees.AddAsync(new StoredTree(garden, new Tree
            {
                Id = Guid.CreateVersion7(), Name = $"Tree {i}", SpeciesId = Species[i % Species.Length], Stage = Enum.GetValues<TreeStage>()[i % 4], Goals = [Goal.Slender],
                Size = TreeSize.M, Health = i % 7 == 0 ? Health.Weak : Health.Vigorous
            }, now, now));
        }
        return garden;
    }

    private static async Task SignInAsync(HttpClient client, string key)
    {
        var form = await client.GetStringAsync("/sign-in");
        using var body = new FormUrlEncodedContent([KeyValuePair.Create("form-token", Token().Match(form).Groups[1].Value), KeyValuePair.Create("key", key)]);
        using var answer = await client.PostAsync("/sign-in", body);
        if (answer.StatusCode != System.Net.HttpStatusCode.SeeOther)
            throw new InvalidOperationException($"Signing in was answered {answer.StatusCode}.");
    }

    private static int Count(string page) => page.Split("<button").Length - 1;

    private static double Median(IEnumerable<double> values) => values.Order().ToList() is var sorted ? sorted[sorted.Count / 2] : 0;

    [GeneratedRegex("name=\"form-token\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    private sealed class Measured : WebApplicationFactory<Database>
    {
        private readonly string _folder = Path.Combine(Path.GetTempPath(), $"scheduler-speed-{Guid.NewGuid():N}");

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseContentRoot(AppContext.BaseDirectory);
            builder.UseSetting("Storage:Folder", _folder);
            builder.UseSetting("Clock:AsOf", "2026-05-10");
            builder.UseSetting("Demo", "false");
            builder.UseSetting("Weather:Sources:0", "recorded");
            builder.UseSetting("Logging:LogLevel:Default", "Warning");
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
}
