using System.Net.Http.Json;
using System.Text.Json;
using AngleSharp.Dom;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Today;

public sealed class TodayTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Today_ShowsWhatTheApiAnnounces()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var garden = (await api.GetFromJsonAsync<JsonElement>("/api/v1/gardens")).GetProperty("items")[0].GetProperty("id").GetString();
        var page = await client.OpenAsync($"/today?garden={garden}");
        var open = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/windows?state=open&limit=200")).GetProperty("items").EnumerateArray()
            .Select(window => window.GetProperty("id").GetGuid()).ToHashSet();
        Assert.NotEmpty(open);
        var shown = Done(page).Select(action => Guid.Parse(action.Split('/')[^1])).ToHashSet();
        Assert.Superset(open, shown);
        Assert.NotEmpty(page.QuerySelectorAll(".credit"));
    }

    [Fact]
    public async Task Done_IsLogged_Said_AndTakenBack()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        await client.OpenAsync("/today");
        var button = Done(client.Page)[0];
        var tree = client.Page.QuerySelector($"button[formaction='{button}']")!.Closest(".row")!.QuerySelector("a[href^='/trees/']")!.GetAttribute("href")!.Split('/')[^1];
        var before = await CountAsync(api, tree, "work");
        await client.SendAsync("#act", [], $"button[formaction='{button}']");
        Assert.Equal(before + 1, await CountAsync(api, tree, "work"));
        var undo = client.Page.QuerySelector(".notice button")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{undo}']");
        Assert.Equal(before, await CountAsync(api, tree, "work"));
        Assert.Contains("did=undone", client.Path, StringComparison.Ordinal);
    }

    /// <summary>"Done" is the last word on work that takes several sessions; a part of it leaves it open.</summary>
    [Theory]
    [InlineData("session", "open")]
    [InlineData("done", "done")]
    public async Task PinchInSessions_ClosesWhenDone(string button, string state)
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        await client.OpenAsync("/today");
        var action = client.Page.QuerySelector("button[formaction*='/session/']")!.GetAttribute("formaction")!.Replace("/session/", $"/{button}/", StringComparison.Ordinal);
        await client.SendAsync("#act", [], $"button[formaction='{action}']");
        Assert.Contains("did=work", client.Path, StringComparison.Ordinal);
        var (garden, id) = (action.Split('/')[2], action.Split('/')[^1]);
        var windows = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/windows?limit=200&state={state}")).GetProperty("items").EnumerateArray();
        Assert.Contains(windows, window => window.GetProperty("id").GetString() == id);
        var undo = client.Page.QuerySelector(".notice button")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{undo}']");
    }

    [Fact]
    public async Task Done_SentTwice_CountsOnce()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        await client.OpenAsync("/today");
        var button = Done(client.Page)[^1];
        var tree = client.Page.QuerySelector($"button[formaction='{button}']")!.Closest(".row")!.QuerySelector("a[href^='/trees/']")!.GetAttribute("href")!.Split('/')[^1];
        var before = await CountAsync(api, tree, "work");
        var (path, fields) = client.Filled("#act", [], $"button[formaction='{button}']");
        await client.PostAsync(path, fields);
        var first = client.Path;
        await client.PostAsync(path, fields);
        Assert.Equal(first, client.Path);
        Assert.Equal(before + 1, await CountAsync(api, tree, "work"));
    }

    [Fact]
    public async Task Seen_TeachesTheClock_AndIsTakenBack()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        await client.OpenAsync("/today");
        var button = client.Page.QuerySelector("button[formaction*='/seen/']")!.GetAttribute("formaction")!;
        var tree = button.Split('/')[^2];
        await client.SendAsync("#act", [], $"button[formaction='{button}']");
        var seen = await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}/observations");
        Assert.Equal(button.Split('/')[^1], seen.GetProperty("items").EnumerateArray().Last().GetProperty("phase").GetString());
        var undo = client.Page.QuerySelector(".notice button")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{undo}']");
        Assert.Equal(0, await CountAsync(api, tree, "observations"));
    }

    [Fact]
    public async Task HostileNames_AreShownAsText()
    {
        const string Hostile = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>";
        var key = await service.NewAccountAsync(Hostile);
        using var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = Hostile, latitude = 52.0, longitude = 5.0 });
        var garden = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
        using var second = await api.PostAsJsonAsync("/api/v1/gardens", new { name = Hostile + " 2", latitude = 52.0, longitude = 5.0 });
        using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{garden}/trees", new
        {
            name = Hostile, species = "acer-palmatum", stage = "ramification", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
        });
        Assert.True(tree.IsSuccessStatusCode);
        using var client = await PageClient.SignedInAsync(service, key);
        var page = await client.OpenAsync($"/today?garden={garden}");
        Assert.Contains(Hostile, page.QuerySelector(".tabs a")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(page.QuerySelectorAll("summary strong, .chips button"), name => name.TextContent.Contains(Hostile, StringComparison.Ordinal));
        Assert.Empty(page.QuerySelectorAll("img, [onerror], script:not([src])"));
    }

    [Fact]
    public async Task Strangers_SeeNothing()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        var garden = await service.FirstAsync("gardens");
        await client.OpenAsync($"/today?garden={garden}");
        Assert.Equal(System.Net.HttpStatusCode.NotFound, client.Last.StatusCode);
    }

    private static List<string> Done(IParentNode page) =>
        [.. page.QuerySelectorAll("button[formaction*='/done/']").Select(button => button.GetAttribute("formaction")!)];

    private static async Task<int> CountAsync(HttpClient api, string tree, string what) =>
        (await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}/{what}?limit=200")).GetProperty("items").GetArrayLength();
}
