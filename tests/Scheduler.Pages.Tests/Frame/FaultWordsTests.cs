using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Frame;

/// <summary>What ordinary use gets wrong is said in the owner's language and units.</summary>
public sealed class FaultWordsTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Faults_AreSaidInGerman()
    {
        var (client, api, garden) = await ReadyAsync(("language", "de"));
        using var _ = client;
        using var __ = api;
        await client.OpenAsync($"/gardens/{garden}");
        await client.SendAsync($"form[action='/gardens/{garden}']", ("name", ""), ("latitude", "95"), ("hardinessZone", "99"), ("timeZone", "Europe/Nowhere"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("Bitte ausfüllen.", Said(client, "name"));
        Assert.Equal("Geben Sie eine Zahl von -90 bis 90 an.", Said(client, "latitude"));
        Assert.Equal("Geben Sie eine halbe Zone von 1a bis 13b an.", Said(client, "hardinessZone"));
        Assert.StartsWith("Das ist hier nicht bekannt. Am nächsten kommen: Europe/", Said(client, "timeZone"), StringComparison.Ordinal);
        Assert.Empty(client.Page.QuerySelectorAll(".faults [lang=en], .fault[lang=en]"));

        using var made = await api.PostAsJsonAsync($"/api/v1/gardens/{garden}/trees", new
        {
            name = "Invented maple", species = "acer-palmatum", stage = "ramification", goals = Array.Empty<string>(), placement = "open", size = "m", health = "sound"
        });
        var tree = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
        await client.OpenAsync($"/trees/{tree}");
        await client.SendAsync($"form[action='/trees/{tree}/work']", ("technique", "repotting"), ("date", "2027-01-01"), ("minutes", "viele"));
        Assert.StartsWith("Geben Sie ein Datum bis ", Said(client, "date"), StringComparison.Ordinal);
        Assert.Contains("2026", Said(client, "date"), StringComparison.Ordinal);
        Assert.StartsWith("Geben Sie eine ganze Zahl von 0 bis ", Said(client, "minutes"), StringComparison.Ordinal);
        Assert.Equal("viele", client.Page.QuerySelector("[name=minutes]")!.GetAttribute("value"));
        await client.OpenAsync($"/trees/{tree}/edit");
        await client.SendAsync("main form", ("name", ""), ("species", "Ahrn"));
        Assert.Equal("Bitte ausfüllen.", Said(client, "name"));
        Assert.Null(client.Page.QuerySelector("#f-species-fault")!.GetAttribute("lang"));
    }

    [Fact]
    public async Task Bounds_AreSaidInTheOwnersUnits()
    {
        var (client, api, garden) = await ReadyAsync(("units", "imperial"));
        using var _ = client;
        using var __ = api;
        await client.OpenAsync($"/gardens/{garden}");
        await client.SendAsync($"form[action='/gardens/{garden}']", ("temperatureOffsetC", "99"));
        Assert.Equal("Give a number from -27 °F to 27 °F.", Said(client, "temperatureOffsetC"));
        await client.OpenAsync($"/gardens/{garden}/bench");
        await client.SendAsync($"form[action='/gardens/{garden}/bench']", ("rootBallC", "200"));
        Assert.Equal("Give a number from -40 °F to 140 °F.", Said(client, "rootBallC"));
    }

    [Fact]
    public async Task Api_SaysEachKind_BesideItsText()
    {
        using var api = service.ApiClient(await service.NewAccountAsync());
        using var answer = await api.PostAsJsonAsync("/api/v1/gardens", new { name = " ", latitude = 95 });
        var body = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Equal(body.GetProperty("errors").EnumerateObject().Select(field => field.Name), body.GetProperty("kinds").EnumerateObject().Select(field => field.Name));
        Assert.Equal("""{"kind":"missing","values":[]}""", body.GetProperty("kinds").GetProperty("longitude")[0].GetRawText());
        Assert.Equal("number", body.GetProperty("kinds").GetProperty("latitude")[0].GetProperty("kind").GetString());
    }

    private static string Said(PageClient client, string field) => client.Page.QuerySelector($"#f-{field}-fault")!.TextContent;

    private async Task<(PageClient Client, HttpClient Api, string Garden)> ReadyAsync((string, string) reading)
    {
        var key = await service.NewAccountAsync();
        var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented Yard", latitude = 52.0, longitude = 5.0 });
        var client = await PageClient.SignedInAsync(service, key);
        await client.SendAsync("form[action='/more']", reading);
        return (client, api, (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!);
    }
}
