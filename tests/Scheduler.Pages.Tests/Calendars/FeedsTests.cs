using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Calendars;

public sealed class FeedsTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Feed_IsMade_Changed_Readdressed_AndDeleted()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key, "/feeds/new");
        using var api = service.ApiClient(key);
        var garden = await service.FirstAsync("gardens");
        await client.SendAsync("form[action='/feeds/new']",
            ("name", "Pines & <b>"), ("content", "both"), ("gathered", "technique"), ("span", "opening"), ("at", "07:30"), ("reminders", "PT6H"), ("reminders", "P6DT15H"), ("gardenIds", garden), ("techniques", "tip-pinch"));
        Assert.Contains("did=made", client.Path, StringComparison.Ordinal);
        var id = client.Path.Split('/', '?')[2];
        var feed = await api.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{id}");
        Assert.Equal("Pines & <b>", feed.GetProperty("name").GetString());
        Assert.Equal("both", feed.GetProperty("content").GetString());
        Assert.Equal(("technique", "opening", "07:30"), (feed.GetProperty("gathered").GetString(), feed.GetProperty("span").GetString(), feed.GetProperty("at").GetString()));
        Assert.Equal(["PT6H", "P6DT15H"], feed.GetProperty("reminders").EnumerateArray().Select(one => one.GetString()));
        Assert.Equal(garden, feed.GetProperty("gardenIds")[0].GetString());
        var url = feed.GetProperty("url").GetString()!;
        Assert.Contains(client.Page.QuerySelectorAll("input"), field => field.GetAttribute("value") == url);
        Assert.NotNull(client.Page.QuerySelector("a[href^='webcal:']"));
        Assert.NotNull(client.Page.QuerySelector("svg.qr path"));

        await client.OpenAsync($"/feeds/{id}/edit");
        Assert.Equal("Pines & <b>", client.Page.QuerySelector("#f-name")!.GetAttribute("value"));
        await client.SendAsync($"form[action='/feeds/{id}/edit']", ("name", "All"), ("gardenIds", ""), ("techniques", ""), ("reminders", ""), ("at", ""));
        feed = await api.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{id}");
        Assert.Equal(JsonValueKind.Null, feed.GetProperty("gardenIds").ValueKind);
        Assert.Equal(JsonValueKind.Null, feed.GetProperty("techniques").ValueKind);
        Assert.Empty(feed.GetProperty("reminders").EnumerateArray());
        Assert.Equal(("technique", JsonValueKind.Null), (feed.GetProperty("gathered").GetString(), feed.GetProperty("at").ValueKind));

        await client.OpenAsync($"/feeds/{id}/rotate");
        await client.SendAsync($"form[action='/feeds/{id}/rotate']");
        var after = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{id}")).GetProperty("url").GetString();
        Assert.NotEqual(url, after);
        using var plain = service.CreateClient();
        Assert.Equal(HttpStatusCode.NotFound, (await plain.GetAsync(new Uri(url).PathAndQuery)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await plain.GetAsync(new Uri(after!).PathAndQuery)).StatusCode);

        await client.OpenAsync($"/feeds/{id}/delete");
        await client.SendAsync($"form[action='/feeds/{id}/delete']");
        Assert.Equal(HttpStatusCode.NotFound, (await api.GetAsync($"/api/v1/feeds/{id}")).StatusCode);
    }

    [Fact]
    public async Task Feed_WithoutAName_KeepsWhatWasTicked()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync(), "/feeds/new");
        await client.SendAsync("form[action='/feeds/new']", ("name", " "), ("content", "plan"), ("reminders", "PT6H"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("true", client.Page.QuerySelector("#f-name")!.GetAttribute("aria-invalid"));
        Assert.True(client.Page.QuerySelector("input[value=plan]")!.HasAttribute("checked"));
        Assert.True(client.Page.QuerySelector("input[value=PT6H]")!.HasAttribute("checked"));
        Assert.False(client.Page.QuerySelector("input[value=PT15H]")!.HasAttribute("checked"));
    }

    [Fact]
    public async Task Feed_SaysWhoFetchedItLast()
    {
        var key = await service.DemoKeyAsync();
        using var api = service.ApiClient(key);
        var feed = (await api.GetFromJsonAsync<JsonElement>("/api/v1/feeds")).GetProperty("items")[0];
        using var calendar = service.CreateClient();
        calendar.DefaultRequestHeaders.UserAgent.ParseAdd("ICSx5/2.2");
        using var fetched = await calendar.GetAsync(new Uri(feed.GetProperty("url").GetString()!).PathAndQuery);
        Assert.Equal(HttpStatusCode.OK, fetched.StatusCode);
        using var client = await PageClient.SignedInAsync(service, key);
        for (var tries = 0; tries < 50; tries++)
        {
            var page = await client.OpenAsync($"/feeds/{feed.GetProperty("id").GetString()}");
            if (page.QuerySelectorAll("p.quiet").Any(line => line.TextContent.Contains("· An app that puts feeds", StringComparison.Ordinal)))
                return;
            await Task.Delay(100);
        }
        Assert.Fail("The page does not say who fetched the feed.");
    }

    [Fact]
    public async Task List_IsSearchedAndOrdered()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented Yard", latitude = 52.0, longitude = 5.0 });
        using var client = await PageClient.SignedInAsync(service, key, "/feeds");
        foreach (var (name, content) in new[] { ("zelkova", "plan"), ("alder", "windows"), ("medlar", "windows") })
            Assert.Equal(HttpStatusCode.Created, (await api.PostAsJsonAsync("/api/v1/feeds", new { name, content })).StatusCode);
        var oldestFirst = (await api.GetFromJsonAsync<JsonElement>("/api/v1/feeds")).GetProperty("items").EnumerateArray().ToList();
        var fetched = oldestFirst.Single(feed => feed.GetProperty("name").GetString() == "medlar");
        using var calendar = service.CreateClient();
        using var body = await calendar.GetAsync(new Uri(fetched.GetProperty("url").GetString()!).PathAndQuery);
        Assert.Equal(["alder", "medlar", "zelkova"], await NamesAsync("/feeds"));
        Assert.Equal(oldestFirst.AsEnumerable().Reverse().Select(feed => feed.GetProperty("name").GetString()!), await NamesAsync("/feeds?sort=newest"));
        Assert.Equal(["zelkova"], await NamesAsync("/feeds?q=free%20days"));
        Assert.Equal(3, (await NamesAsync("/feeds?q=invented+yard")).Count);
        for (var tries = 0; tries < 50 && (await NamesAsync("/feeds?sort=fetched"))[0] != "medlar"; tries++)
            await Task.Delay(100);
        Assert.Equal(["medlar", "alder", "zelkova"], await NamesAsync("/feeds?sort=fetched"));
        Assert.Empty(await NamesAsync("/feeds?q=nothing-fits"));
        Assert.NotNull(client.Page.QuerySelector(".empty a[href='/feeds']"));

        async Task<List<string>> NamesAsync(string path) => [.. (await client.OpenAsync(path)).QuerySelectorAll(".card-rows h2").Select(title => title.TextContent)];
    }

    [Fact]
    public async Task Strangers_FindNoFeed()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        var feed = await service.FirstAsync("feeds");
        foreach (var path in new[] { "", "/edit", "/rotate", "/delete" })
        {
            await client.OpenAsync($"/feeds/{feed}{path}");
            Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
        }
    }
}
