using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Reflection;
using System.Resources;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;
using Scheduler.Service.Roads;

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
    public async Task FeedForm_IsCorrectedInGerman()
    {
        var (client, api, _) = await ReadyAsync(("language", "de"));
        using var __ = client;
        using var ___ = api;
        // With one garden there is nothing to choose.
        using var second = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Second Yard", latitude = 52.0, longitude = 5.0 });
        await client.OpenAsync("/feeds/new");
        await client.SendAsync("form[action='/feeds/new']",
            ("name", ""), ("at", "25:00"), ("reminders", "soon"), ("gardenIds", Guid.NewGuid().ToString()), ("techniques", "tip-pinsh"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("Geben Sie eine Uhrzeit von 00:00 bis 23:59 an.", Said(client, "at"));
        Assert.Equal("Wählen Sie etwas aus der Liste.", Said(client, "gardenIds"));
        Assert.StartsWith("Geben Sie eine Dauer von höchstens dreißig Tagen an", Said(client, "reminders"), StringComparison.Ordinal);
        Assert.Empty(client.Page.QuerySelectorAll(".faults [lang=en], .fault[lang=en]"));
        // What is said of an item leads to its field.
        Assert.All(client.Page.QuerySelectorAll(".faults a"), link => Assert.NotNull(client.Page.QuerySelector(link.GetAttribute("href")!)));
        Assert.DoesNotContain(client.Page.QuerySelectorAll(".faults a"), link => link.TextContent.Contains('['));
        await client.SendAsync("form[action='/feeds/new']",
            [("name", "Viele"), .. Enumerable.Range(1, 6).Select(days => ("reminders", $"P{days}D"))]);
        Assert.Equal("Wählen Sie höchstens 5.", Said(client, "reminders"));
    }

    [Fact]
    public async Task Refusals_AreSaidInGerman()
    {
        var (client, api, _) = await ReadyAsync(("language", "de"));
        using var __ = client;
        using var ___ = api;
        for (var number = 1; number <= 20; number++)
            Assert.Equal(HttpStatusCode.Created, (await api.PostAsJsonAsync("/api/v1/roads", new { kind = "webhook", name = $"road {number}", url = "https://hooks.example/garden" })).StatusCode);
        await client.OpenAsync("/reminders/new/webhook");
        await client.SendAsync("form[action='/reminders/new/webhook']", ("name", "one more"), ("url", "https://hooks.example/garden"));
        Assert.Equal(HttpStatusCode.Conflict, client.Last.StatusCode);
        var said = client.Page.QuerySelector(".faults p")!;
        Assert.Equal(("Es gibt schon 20 Wege, mehr kann ein Konto nicht haben. Löschen Sie zuerst einen.", null), (said.TextContent, said.GetAttribute("lang")));
    }

    /// <summary>Whatever can go wrong on a road has words; what a later version may add is told in English.</summary>
    [Fact]
    public void RoadErrors_HaveWordsInEveryLanguage()
    {
        var errors = typeof(RoadError).GetFields(BindingFlags.Public | BindingFlags.Static).Select(field => (RoadError)field.GetValue(null)!)
            .Concat(typeof(RoadError).GetMethods(BindingFlags.Public | BindingFlags.Static).Where(method => method.GetParameters() is [{ ParameterType: var type }] && type == typeof(int))
                .Select(method => (RoadError)method.Invoke(null, [410])!)).ToList();
        Assert.True(errors.Count > 20);
        var texts = new ResourceManager("Scheduler.Service.Pages.Texts", typeof(Scheduler.Service.Pages.Texts).Assembly);
        foreach (var culture in new[] { CultureInfo.InvariantCulture, CultureInfo.GetCultureInfo("de") })
        {
            Assert.All(errors, error =>
            {
                var text = texts.GetResourceSet(culture, true, false)!.GetString("RoadError." + error.Kind.Kind);
                Assert.Equal(error.Kind.Values.Count, text!.Split("{0}").Length - 1);
            });
        }
        Assert.Equal(errors.Count, errors.Select(error => error.Kind.Kind).Distinct().Count());
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
