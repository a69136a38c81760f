using System.IO.Compression;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Extensions.Configuration;
using Scheduler.Service.Storage;
using Scheduler.Service.Storage.Backup;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Storage.Backup;

public sealed class BackupTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("scheduler-backup-").FullName;

    private string Saved => Path.Combine(_folder, "saved.zip");

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Restore_OnANewMachine_BringsEveryRowAndTheAddressesOfTheFeeds()
    {
        using var first = Demonstration();
        var address = await ShownAsync(first);
        await RunAsync("backup", first.Storage);
        var rows = DatabaseDump.Of(first);
        using var reader = first.Anonymous();
        var feed = await reader.GetStringAsync(address.PathAndQuery);

        using var second = new ServiceFactory { Recorders = false };
        await RunAsync("restore", second.Storage);
        Assert.Equal(rows, DatabaseDump.Of(second));
        using var anybody = second.Anonymous();
        Assert.Equal(feed, await anybody.GetStringAsync(address.PathAndQuery));
        Assert.Equal(address.PathAndQuery, (await ShownAsync(second)).PathAndQuery);
    }

    [PostgresFact]
    public async Task Restore_IntoTheOtherEngine_BringsEveryRow()
    {
        using var first = Demonstration();
        await ShownAsync(first);
        await RunAsync("backup", first.Storage);
        var rows = DatabaseDump.Of(first);

        using var second = new ServiceFactory { Recorders = false }.OnPostgres();
        await RunAsync("restore", second.Storage);
        Assert.Equal(rows, DatabaseDump.Of(second));
        await RunAsync("backup", second.Storage);
        using var third = new ServiceFactory { Recorders = false };
        await RunAsync("restore", third.Storage);
        Assert.Equal(rows, DatabaseDump.Of(third));
    }

    [Fact]
    public async Task Restore_WhileTheServiceRuns_UndoesWhatCameAfter()
    {
        using var service = new ServiceFactory();
        using var owner = await service.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        await RunAsync("backup", service.Storage);
        var rows = DatabaseDump.Of(service);
        await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        await RunAsync("restore", service.Storage);
        Assert.Equal(rows, DatabaseDump.Of(service));
        Assert.Empty((await owner.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/trees")).GetProperty("items").EnumerateArray());
    }

    [Fact]
    public async Task Backup_WhileOthersWrite_ShowsOneMoment()
    {
        using var service = new ServiceFactory();
        using var owner = await service.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        using var stop = new CancellationTokenSource();
        var writing = Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                var tree = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
                await owner.MakeAsync($"/api/v1/trees/{tree}/work", Bodies.Work());
            }
        });
        for (var i = 0; i < 5; i++)
        {
            await RunAsync("backup", service.Storage);
            // Work refers to its tree: of two moments the restore would refuse one without the other.
            using var other = new ServiceFactory();
            await RunAsync("restore", other.Storage);
        }
        await stop.CancelAsync();
        await writing;
    }

    [Fact]
    public async Task Backup_File_OnlyItsOwnerMayRead()
    {
        if (OperatingSystem.IsWindows())
            return;
        await RunAsync("backup", Empty());
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Saved));
    }

    [Theory]
    [InlineData("a byte turned", "damaged")]
    [InlineData("cut short", "damaged")]
    [InlineData("no archive", "damaged")]
    [InlineData("another archive", "is no backup")]
    [InlineData("newer", "newer version (9999_later.sql)")]
    [InlineData("missing", "Could not find")]
    public async Task Restore_FromABadFile_SaysSoAndChangesNothing(string fault, string remedy)
    {
        using var service = new ServiceFactory();
        using var owner = await service.SignUpAsync();
        await RunAsync("backup", service.Storage);
        Spoil(fault);
        var rows = DatabaseDump.Of(service);
        var error = new StringWriter();
        Assert.Equal(1, await BackupCommands.RunAsync("restore", [Saved], Settings(service.Storage), TextWriter.Null, error));
        Assert.Contains(remedy, error.ToString(), StringComparison.Ordinal);
        Assert.Equal(rows, DatabaseDump.Of(service));
    }

    [Fact]
    public async Task Commands_WithoutAFile_ShowTheirUse()
    {
        var error = new StringWriter();
        Assert.Equal(1, await BackupCommands.RunAsync("backup", [], Settings(Empty()), TextWriter.Null, error));
        Assert.Contains("backup FILE", error.ToString(), StringComparison.Ordinal);
    }

    private void Spoil(string fault)
    {
        var bytes = File.ReadAllBytes(Saved);
        switch (fault)
        {
            case "a byte turned":
                using (var archive = ZipFile.Open(Saved, ZipArchiveMode.Update))
                {
                    using var stream = archive.GetEntry("tables/accounts.jsonl")!.Open();
                    stream.Seek(3, SeekOrigin.Begin);
                    stream.WriteByte((byte)'#');
                }
                break;
            case "cut short":
                File.WriteAllBytes(Saved, bytes[..(bytes.Length / 2)]);
                break;
            case "no archive":
                File.WriteAllText(Saved, "invented");
                break;
            case "another archive":
                File.Delete(Saved);
                using (var archive = ZipFile.Open(Saved, ZipArchiveMode.Create))
                    archive.CreateEntry("something.txt");
                break;
            case "newer":
                using (var archive = ZipFile.Open(Saved, ZipArchiveMode.Update))
                {
                    using var reader = new StreamReader(archive.GetEntry("manifest.json")!.Open());
                    var text = reader.ReadToEnd().Replace("\"migrations\":[", "\"migrations\":[\"9999_later.sql\",", StringComparison.Ordinal);
                    reader.Dispose();
                    archive.GetEntry("manifest.json")!.Delete();
                    using var writer = new StreamWriter(archive.CreateEntry("manifest.json").Open());
                    writer.Write(text);
                }
                break;
            default:
                File.Delete(Saved);
                break;
        }
    }

    private StorageOptions Empty() => new() { Folder = Path.Combine(_folder, "empty") };

    private async Task RunAsync(string command, StorageOptions storage)
    {
        var error = new StringWriter();
        Assert.True(await BackupCommands.RunAsync(command, [Saved], Settings(storage), TextWriter.Null, error) == 0, error.ToString());
    }

    private static IConfiguration Settings(StorageOptions storage) => new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?>
    {
        ["Storage:Folder"] = storage.Folder,
        ["Storage:Provider"] = storage.Provider,
        ["Storage:ConnectionString"] = storage.ConnectionString
    }).Build();

    private static ServiceFactory Demonstration() =>
        new ServiceFactory { Recorders = false }.With("Demo", "true").With("Weather:Sources:0", "recorded");

    /// <summary>The first feed's address as the owner is shown it, which needs the sealing keys.</summary>
    private static async Task<Uri> ShownAsync(ServiceFactory service)
    {
        using var owner = service.WithKey(await DemoKey.MakeAsync(service));
        var feeds = await owner.GetFromJsonAsync<JsonElement>("/api/v1/feeds");
        return new Uri(feeds.GetProperty("items")[0].GetProperty("url").GetString()!);
    }
}
