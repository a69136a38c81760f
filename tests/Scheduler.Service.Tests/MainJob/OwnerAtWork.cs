using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>An owner who uses the real service over HTTP; only the clock stands still and no weather source is asked.</summary>
internal sealed class OwnerAtWork : IAsyncDisposable
{
    private readonly ServiceFactory _factory;

    private OwnerAtWork(ServiceFactory factory, HttpClient client) => (_factory, Client) = (factory, client);

    public HttpClient Client { get; }
    public ServiceFactory Factory => _factory;

    public static async Task<OwnerAtWork> StartAsync(string today)
    {
        var factory = new ServiceFactory { Recorders = false }.With("Clock:AsOf", today).With("Weather:Sources", "");
        return new OwnerAtWork(factory, await factory.SignUpAsync());
    }

    public async Task<string> GardenAsync(double latitude = 52, string timeZone = "Europe/Amsterdam") => await Client.MakeAsync("/api/v1/gardens", new JsonObject
    {
        ["name"] = $"Garden at {latitude}", ["latitude"] = latitude, ["longitude"] = 5, ["elevationM"] = 10, ["timeZone"] = timeZone,
        ["waterAssured"] = true, ["frostFreeShelter"] = true
    });

    public async Task ReadingsAsync(string garden, string csv)
    {
        using var answer = await Client.PutAsync($"/api/v1/gardens/{garden}/readings", new StringContent(csv, Encoding.UTF8, "text/csv"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var said = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
        Assert.Empty(said["rejected"]!.AsArray());
    }

    public Task<string> TreeAsync(string garden, string name, string species, string stage, string goal, string health = "vigorous") =>
        Client.MakeAsync($"/api/v1/gardens/{garden}/trees", new JsonObject
        {
            ["name"] = name, ["species"] = species, ["stage"] = stage, ["goals"] = new JsonArray(goal), ["size"] = "m", ["health"] = health,
            ["placement"] = "open", ["rootWorkKnown"] = true
        });

    public Task<string> WorkAsync(string tree, string technique, string date, string? extent = null)
    {
        var body = new JsonObject { ["technique"] = technique, ["date"] = date };
        if (extent is not null)
            body["extent"] = extent;
        return Client.MakeAsync($"/api/v1/trees/{tree}/work", body);
    }

    public Task<string> SawAsync(string tree, string date, int bbch) =>
        Client.MakeAsync($"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = date, ["bbch"] = bbch });

    public async Task<string> FeedAsync()
    {
        using var answer = await Client.PostAsync("/api/v1/feeds", Bodies.Raw("""{"name":"Everything","content":"windows","reminders":["PT15H"]}"""));
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return new Uri(JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["url"]!.GetValue<string>()).PathAndQuery;
    }

    public Task<string> CalendarAsync(string feed) => Client.GetStringAsync(feed);

    public async Task<JsonArray> WindowsAsync(string garden)
    {
        var items = new JsonArray();
        string? next = null;
        do
        {
            var page = JsonNode.Parse(await Client.GetStringAsync($"/api/v1/gardens/{garden}/windows?limit=200{(next is null ? "" : $"&after={next}")}"))!;
            foreach (var item in page["items"]!.AsArray())
                items.Add(item!.DeepClone());
            next = page["next"]?.GetValue<string>();
        }
        while (next is not null);
        return items;
    }

    /// <summary>The text of each event by its UID, as it stands in the feed.</summary>
    public static Dictionary<string, string> Events(string calendar) => calendar
        .Split("BEGIN:VEVENT").Skip(1)
        .Select(part => part[..part.IndexOf("END:VEVENT", StringComparison.Ordinal)])
        .ToDictionary(part => part.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n").First(line => line.StartsWith("UID:", StringComparison.Ordinal)));

    /// <summary>The next event with this heading; the growth year after has one of its own.</summary>
    public static CalendarEvent Event(string calendar, string summary) =>
        Calendar.Load(calendar)!.Events.Where(one => one.Summary!.EndsWith(summary, StringComparison.Ordinal)).MinBy(one => one.Start!.Value)!;

    public ValueTask DisposeAsync()
    {
        Client.Dispose();
        return _factory.DisposeAsync();
    }
}
