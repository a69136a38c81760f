using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Start;

public sealed class StartTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Coordinates_AsTheOwnersLanguageWritesThem_MakeAGarden()
    {
        var key = await service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        client.Http.DefaultRequestHeaders.AcceptLanguage.ParseAdd("de-DE");
        await client.OpenAsync("/start");
        await client.SendAsync("form.narrow[method=post]", ("name", "Erfundener Garten"), ("latitude", "52,25"), ("longitude", "5,5"));
        Assert.Contains("/trees/new", client.Path, StringComparison.Ordinal);
        using var api = service.ApiClient(key);
        var garden = (await api.GetFromJsonAsync<JsonElement>("/api/v1/gardens")).GetProperty("items")[0];
        Assert.Equal(52.25, garden.GetProperty("latitude").GetDouble());
        Assert.Equal(5.5, garden.GetProperty("longitude").GetDouble());
        // What was found out about the place stands on the page of the first tree, with the credit of the weather.
        Assert.Contains(garden.GetProperty("timeZone").GetString()!, client.Page.QuerySelector(".facts")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(garden.GetProperty("hardinessZone").GetString()!, client.Page.QuerySelector(".facts")!.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(client.Page.QuerySelectorAll(".credit"));
    }

    [Fact]
    public async Task Coordinates_OffTheGlobe_AreRefusedBesideTheirFields()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        await client.OpenAsync("/start");
        await client.SendAsync("form.narrow[method=post]", ("name", ""), ("latitude", "95"), ("longitude", "east"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal(3, client.Page.QuerySelectorAll(".fault").Length);
        Assert.Equal("east", client.Page.QuerySelector("#f-longitude")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Search_ShowsWhatWasAskedAsText()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        var page = await client.OpenAsync("/start?q=" + Uri.EscapeDataString("\"><script>alert(1)</script>"));
        Assert.Contains("<script>alert(1)</script>", page.QuerySelector("#found")!.TextContent, StringComparison.Ordinal);
        Assert.Empty(page.QuerySelectorAll("script:not([src])"));
    }

    [Fact]
    public async Task FirstTree_IsFoundByEitherName()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented garden", latitude = 52.0, longitude = 5.0 });
        var garden = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
        using var client = await PageClient.SignedInAsync(service, key);
        foreach (var name in new[] { "Acer palmatum", "japanese maple", "Japanese maple (Acer palmatum)", "acer-palmatum" })
        {
            await client.OpenAsync($"/trees/new?garden={garden}");
            Assert.True(client.Page.QuerySelectorAll("#all-species option").Length > 40);
            await client.SendAsync("form.narrow", ("name", name), ("species", name));
            Assert.StartsWith("/trees/0", client.Path, StringComparison.Ordinal);
            Assert.Contains("Acer palmatum", client.Page.QuerySelector(".lead")!.TextContent, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Calendar_IsMadeOnce()
    {
        var key = await service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        await client.OpenAsync("/start/calendar");
        var (path, fields) = client.Filled("main form", []);
        await client.PostAsync(path, fields);
        await client.PostAsync(path, fields);
        using var api = service.ApiClient(key);
        var feed = Assert.Single((await api.GetFromJsonAsync<JsonElement>("/api/v1/feeds")).GetProperty("items").EnumerateArray());
        Assert.Equal(feed.GetProperty("url").GetString(), client.Page.QuerySelector("#feed-url")!.GetAttribute("value"));
        Assert.NotNull(client.Page.QuerySelector("svg.qr path.qr-ink"));
    }
}
