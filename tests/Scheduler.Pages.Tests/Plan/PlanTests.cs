using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Plan;

public sealed class PlanTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Plan_ShowsTheDaysOfTheApi_InOrder()
    {
        var (client, api, garden) = await StartAsync();
        var plan = await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/plan");
        var planned = plan.GetProperty("days").EnumerateArray().SelectMany(day => day.GetProperty("items").EnumerateArray()).Select(item => item.GetProperty("treeName").GetString()!).ToList();
        Assert.NotEmpty(planned);
        var page = await client.OpenAsync($"/plan?garden={garden}&show=work");
        Assert.Equal(planned, page.QuerySelectorAll("section[aria-labelledby=days] .row-name a").Select(link => link.TextContent));
        foreach (var visit in plan.GetProperty("unplaced").EnumerateArray())
            Assert.Contains(visit.GetProperty("reason").GetString()!, page.Body!.TextContent, StringComparison.Ordinal);
        client.Dispose();
    }

    [Fact]
    public async Task Done_IsLogged_AndTakenBack()
    {
        var (client, api, garden) = await StartAsync();
        var page = await client.OpenAsync($"/plan?garden={garden}");
        var button = page.QuerySelector("button[formaction*='/done/']")!;
        var tree = button.Closest(".row")!.QuerySelector(".row-name a")!.GetAttribute("href")!.Split('/')[^1];
        var before = await CountAsync(api, tree);
        await client.SendAsync("#act", [], $"button[formaction='{button.GetAttribute("formaction")}']");
        Assert.Equal(before + 1, await CountAsync(api, tree));
        var undo = client.Page.QuerySelector(".notice button")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{undo}']");
        Assert.Equal(before, await CountAsync(api, tree));
        client.Dispose();
    }

    /// <summary>Work that takes several sessions can be logged here as on the page of the day: one of them, or all that was left.</summary>
    [Theory]
    [InlineData("session", "open")]
    [InlineData("done", "done")]
    public async Task PinchInSessions_ClosesWhenDone(string way, string state)
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        await client.OpenAsync("/plan?show=work");
        var row = client.Page.QuerySelector("button[formaction*='/session/']")!.Closest(".row")!;
        // What is meant by the visit stands beside it: a session, as long as another visit follows.
        var isPart = row.QuerySelector(".do .hidden")!.TextContent.Split(", visit ") is [_, var visit] && visit.Split(" of ") is [var one, var all] && one != all;
        Assert.Equal(isPart, row.QuerySelector(".do")!.GetAttribute("formaction")!.Contains("/session/", StringComparison.Ordinal));
        var action = row.QuerySelector($"button[formaction*='/{way}/']")!.GetAttribute("formaction")!;
        await client.SendAsync("#act", [], $"button[formaction='{action}']");
        Assert.Contains("did=work", client.Path, StringComparison.Ordinal);
        var (garden, id) = (action.Split('/')[2], action.Split('/')[^1]);
        var windows = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/windows?limit=200&state={state}")).GetProperty("items").EnumerateArray();
        Assert.Contains(windows, window => window.GetProperty("id").GetString() == id);
        var undo = client.Page.QuerySelector(".notice button")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{undo}']");
    }

    [Fact]
    public async Task Week_IsSaved_AndARefusedDayIsNamed()
    {
        var (client, api, garden) = await StartAsync();
        await client.OpenAsync($"/plan?garden={garden}");
        await client.SendAsync("form[action$='/week']", ("monday", "45"), ("wednesday", ""), ("saturday", "200"), ("sunday", "0"));
        var days = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}")).GetProperty("workDays").EnumerateArray()
            .ToDictionary(day => day.GetProperty("day").GetString()!, day => day.GetProperty("minutes").GetInt32());
        Assert.Equal(new Dictionary<string, int> { ["monday"] = 45, ["saturday"] = 200 }, days);
        Assert.Contains("Saved", client.Page.QuerySelector(".notice")!.TextContent, StringComparison.Ordinal);
        await client.SendAsync("form[action$='/week']", ("monday", "45"), ("saturday", "a lot"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("a lot", client.Page.QuerySelector("#f-saturday")!.GetAttribute("value"));
        Assert.Equal("true", client.Page.QuerySelector("#f-saturday")!.GetAttribute("aria-invalid"));
        Assert.Null(client.Page.QuerySelector("#f-monday")!.GetAttribute("aria-invalid"));
        client.Dispose();
    }

    [Fact]
    public async Task Away_ClearsItsDays_AndIsRemovedAgain()
    {
        var (client, api, garden) = await StartAsync();
        await client.OpenAsync($"/plan?garden={garden}");
        await client.SendAsync("form[action$='/away']", ("from", "2026-04-10"), ("to", "2026-04-20"));
        await client.SendAsync("form[action$='/extra']", ("from", "2026-04-22"), ("minutes", "300"));
        var plan = await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/plan?from=2026-04-10&to=2026-04-22");
        var days = plan.GetProperty("days").EnumerateArray().Select(day => (day.GetProperty("date").GetString(), day.GetProperty("minutesFree").GetInt32())).ToList();
        Assert.DoesNotContain(days, day => string.CompareOrdinal(day.Item1, "2026-04-20") <= 0);
        Assert.Contains(("2026-04-22", 300), days);
        Assert.Equal(2, client.Page.QuerySelectorAll("button[formaction*='/remove/']").Length);
        var remove = client.Page.QuerySelector("button[formaction*='/remove/']")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{remove}']");
        Assert.Single(client.Page.QuerySelectorAll("button[formaction*='/remove/']"));
        await client.SendAsync("form[action$='/away']", ("from", "2026-05-10"), ("to", "2026-05-01"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.NotEmpty(client.Page.QuerySelectorAll("#away-f-to[aria-invalid=true]"));
        client.Dispose();
    }

    // A garden of its own for each test, since each changes its days.
    private async Task<(PageClient Client, HttpClient Api, string Garden)> StartAsync()
    {
        var key = await service.NewAccountAsync();
        var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new
        {
            name = "Made up", latitude = 52.0, longitude = 5.0, waterAssured = true,
            workDays = new[] { new { day = "saturday", minutes = 180 }, new { day = "wednesday", minutes = 60 } }
        });
        var garden = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
        foreach (var (name, species) in new[] { ("Maple", "acer-palmatum"), ("Elm", "ulmus-parvifolia") })
        {
            using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{garden}/trees", new
            {
                name, species, stage = "ramification", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
            });
            Assert.True(tree.IsSuccessStatusCode);
        }
        return (await PageClient.SignedInAsync(service, key), api, garden);
    }

    private static async Task<int> CountAsync(HttpClient api, string tree) =>
        (await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}/work?limit=200")).GetProperty("items").GetArrayLength();
}
