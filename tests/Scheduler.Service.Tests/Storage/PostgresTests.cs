using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Extensions.Options;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Storage;

/// <summary>The same service on a real PostgreSQL server. SCHEDULER_TESTS_ON=postgres runs every other test there as well.</summary>
public sealed class PostgresTests
{
    [PostgresFact]
    public async Task MainJob_OnEitherEngine_GivesTheSameAnswers()
    {
        using var sqlite = Demonstration();
        using var postgres = Demonstration().OnPostgres();
        foreach (var path in new[] { "windows", "season", "follow-ups" })
            Assert.Equal(await AskAsync(sqlite, path), await AskAsync(postgres, path));
    }

    [PostgresFact]
    public async Task Migrate_Twice_AppliesEachMigrationOnceAndKeepsTheRows()
    {
        using var database = new Database(Options.Create(new StorageOptions { Provider = "postgres", ConnectionString = PostgresServer.NewDatabase() }));
        database.Migrate();
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync("INSERT INTO accounts (id, name, created_at) VALUES ('a', 'A', '2026-04-15T00:00:00Z')");
        database.Migrate();
        Assert.Equal(1, await connection.ExecuteScalarAsync<long>("SELECT COUNT(*) FROM accounts"));
        Assert.Equal(Database.Migrations, (await connection.QueryAsync<string>("SELECT ScriptName FROM SchemaVersions")).Order(StringComparer.Ordinal));
    }

    [PostgresFact]
    public async Task Changes_ManyAtOnce_LoseNone()
    {
        using var service = new ServiceFactory().OnPostgres();
        using var owner = await service.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var tree = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        var changes = new (string Field, string Value)[] { ("name", "Made up"), ("notes", "Invented"), ("cultivar", "None"), ("health", "vigorous"), ("size", "l"), ("placement", "sheltered") };
        await Task.WhenAll(changes.Select(async change =>
        {
            using var answer = await owner.PatchAsJsonAsync($"/api/v1/trees/{tree}", new Dictionary<string, string> { [change.Field] = change.Value });
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        }));
        var kept = (await owner.GetFromJsonAsync<JsonObject>($"/api/v1/trees/{tree}"))!;
        Assert.All(changes, change => Assert.Equal(change.Value, (string?)kept[change.Field]));
    }

    [Theory]
    [InlineData("mysql", null, "Use 'sqlite' or 'postgres'")]
    [InlineData("postgres", null, "Storage:ConnectionString is missing")]
    public void Provider_ThatCannotWork_IsRefusedWithARemedy(string provider, string? connection, string remedy)
    {
        var refusal = Assert.Throws<InvalidOperationException>(
            () => new Database(Options.Create(new StorageOptions { Provider = provider, ConnectionString = connection })));
        Assert.Contains(remedy, refusal.Message, StringComparison.Ordinal);
    }

    private static ServiceFactory Demonstration() =>
        new ServiceFactory { Recorders = false }.With("Demo", "true").With("Weather:Sources:0", "recorded");

    /// <summary>The answers for all gardens, without ids and moments, which differ from service to service.</summary>
    private static async Task<string> AskAsync(ServiceFactory service, string path)
    {
        using var owner = service.WithKey(await DemoKey.MakeAsync(service));
        var answers = new List<string>();
        foreach (var garden in (await owner.GetFromJsonAsync<JsonObject>("/api/v1/gardens"))!["items"]!.AsArray().OrderBy(item => (string?)item!["name"]))
        {
            var parts = new JsonArray();
            var next = "";
            do
            {
                var page = (await owner.GetFromJsonAsync<JsonObject>($"/api/v1/gardens/{garden!["id"]}/{path}{next}"))!;
                next = page["next"] is { } cursor ? $"?after={cursor}" : "";
                foreach (var item in page["items"]?.AsArray() ?? new JsonArray(page.DeepClone()))
                    parts.Add(item!.DeepClone());
            } while (next.Length > 0);
            answers.Add(Plain(parts));
        }
        Assert.True(answers.Sum(answer => answer.Length) > 500, "There is nothing to compare.");
        return string.Join("\n", answers);
    }

    private static string Plain(JsonNode? node)
    {
        switch (node)
        {
            case JsonObject map:
                foreach (var name in map.Select(pair => pair.Key).Where(name => name is "id" or "windowId" or "treeId" or "workId" or "changedAt" or "next").ToList())
                    map.Remove(name);
                return $"{{{string.Join(",", map.Select(pair => $"{pair.Key}:{Plain(pair.Value)}"))}}}";
            case JsonArray list:
                return $"[{string.Join(",", list.Select(Plain).Order(StringComparer.Ordinal))}]";
            default:
                return node?.ToJsonString() ?? "null";
        }
    }
}
