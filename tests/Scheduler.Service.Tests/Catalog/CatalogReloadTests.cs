using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Service.Catalog;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Catalog;

/// <summary>A change of the owner's folder while the service runs. The test looks itself, so that it need not wait for the timer.</summary>
public sealed class CatalogReloadTests : IDisposable
{
    private const string Maple = "id: acer-palmatum\nbasedOn: acer-palmatum\ncommonName: own maple\n";
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Change_ThatIsSound_IsTakenAndAllGardensArePlannedAnew()
    {
        using var owner = await _service.SignUpAsync();
        var garden = Guid.Parse(await owner.MakeAsync("/api/v1/gardens", Bodies.Garden()));
        _service.Planner.Replanned.Clear();

        await ChangeAsync("species/acer-palmatum.yaml", Maple);

        Assert.Equal("own maple", (await owner.JsonAsync("/api/v1/species/acer-palmatum")).GetProperty("commonName").GetString());
        Assert.Equal(garden, Assert.Single(_service.Planner.Replanned));
        var catalog = await owner.JsonAsync("/api/v1/catalog");
        Assert.Equal("own/species/acer-palmatum.yaml", catalog.GetProperty("files")[0].GetString());
        Assert.Equal(JsonValueKind.Null, catalog.GetProperty("problem").ValueKind);
    }

    [Fact]
    public async Task Change_WithAFault_KeepsTheLastGoodCatalogAndSaysSo()
    {
        using var anonymous = _service.Anonymous();
        await ChangeAsync("species/acer-palmatum.yaml", Maple);

        await ChangeAsync("species/acer-palmatum.yaml", Maple + "group: MPX\n");

        Assert.Equal("own maple", (await anonymous.JsonAsync("/api/v1/species/acer-palmatum")).GetProperty("commonName").GetString());
        var fault = (await anonymous.JsonAsync("/api/v1/catalog")).GetProperty("problem")[0];
        Assert.Equal(("own/species/acer-palmatum.yaml", 4), (fault.GetProperty("file").GetString(), fault.GetProperty("line").GetInt32()));
        Assert.Equal("degraded", (await anonymous.JsonAsync("/health/ready")).GetProperty("checks").GetProperty("catalog").GetString());

        await ChangeAsync("species/acer-palmatum.yaml", Maple + "family: Sapindaceae\n");
        Assert.Equal("healthy", (await anonymous.JsonAsync("/health/ready")).GetProperty("checks").GetProperty("catalog").GetString());
    }

    [Fact]
    public async Task Species_OfWhichThereIsATree_CannotBeTakenAway()
    {
        using var owner = await _service.SignUpAsync();
        await ChangeAsync("species/acer-inventum.yaml", "id: acer-inventum\nbasedOn: acer-palmatum\n");
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        await using (var connection = await _service.Services.GetRequiredService<Database>().OpenAsync())
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "UPDATE trees SET body = replace(body, 'acer-palmatum', 'acer-inventum')";
            Assert.Equal(1, await command.ExecuteNonQueryAsync());
        }

        File.Delete(Path.Combine(Own, "species/acer-inventum.yaml"));
        await LookTwiceAsync();

        var problem = (await owner.JsonAsync("/api/v1/catalog")).GetProperty("problem")[0];
        Assert.Equal("own/species/acer-inventum.yaml", problem.GetProperty("file").GetString());
        Assert.Equal("Acer palmatum", (await owner.JsonAsync("/api/v1/species/acer-inventum")).GetProperty("botanicalName").GetString());
    }

    private string Own => Path.Combine(_service.Folder, "catalog");

    private async Task ChangeAsync(string name, string text)
    {
        var path = Path.Combine(Own, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        await File.WriteAllTextAsync(path, text);
        await LookTwiceAsync();
    }

    private async Task LookTwiceAsync()
    {
        var reload = _service.Services.GetRequiredService<CatalogReload>();
        await reload.LookAsync(default);
        await reload.LookAsync(default);
    }
}
