using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Pages.Tests.Trees;

public sealed class TreePagesTests(PagesService service) : IClassFixture<PagesService>
{
    private const string Hostile = "<b onmouseover=alert(1)>\"'&";

    [Fact]
    public async Task Tree_TellsEveryVerdictOfTheApi()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var tree = await service.FirstAsync("trees");
        var page = await client.OpenAsync($"/trees/{tree}");
        var names = (await api.GetFromJsonAsync<JsonElement>("/api/v1/techniques?limit=200")).GetProperty("items").EnumerateArray()
            .ToDictionary(one => one.GetProperty("id").GetString()!, one => one.GetProperty("name").GetString()!);
        var advice = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}/advice")).GetProperty("items").EnumerateArray().ToList();
        var shown = page.QuerySelectorAll("section[aria-labelledby=advice] li.row").Select(row => row.QuerySelector("strong")!.TextContent).ToList();
        Assert.Equal(advice.Select(item => names[item.GetProperty("technique").GetString()!]).Order(StringComparer.Ordinal), shown.Order(StringComparer.Ordinal));
        foreach (var item in advice)
            Assert.Contains(new Locale(CultureInfo.GetCultureInfo("en-GB"), Locale.Metric).Told(item.GetProperty("why")[0].GetString()!), page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tree_ShowsTheNumbersOfItsSpecies_WithTheirProvenance()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var page = await client.OpenAsync($"/trees/{await service.FirstAsync("trees")}");
        // The first tree of the demonstration is an Acer palmatum; its file gives the root kill with a source.
        var row = page.QuerySelectorAll("section[aria-labelledby=figures] tr").Single(line => line.TextContent.Contains("root kill", StringComparison.Ordinal));
        Assert.Contains("-10 °C", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("from memory", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("Havis 1976", row.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Log_WithFaults_SaysAllOfThem_AndKeepsWhatWasTyped()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var path = $"/trees/{await service.FirstAsync("trees")}";
        await client.OpenAsync(path);
        await client.SendAsync($"form[action='{path}/work']:not(#act)",
            ("technique", "repotting/light"), ("date", "2031-02-30"), ("minutes", "soon"), ("rootPercent", "200"), ("notes", Hostile));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal(3, client.Page.QuerySelectorAll(".faults li").Length);
        Assert.Equal("soon", client.Page.QuerySelector("#f-minutes")!.GetAttribute("value"));
        Assert.Equal(Hostile, client.Page.QuerySelector("#f-notes")!.TextContent);
        Assert.Equal("repotting/light", client.Page.QuerySelector("#f-technique option[selected]")!.GetAttribute("value"));
        Assert.Empty(client.Page.QuerySelectorAll("[onmouseover]"));
        // The other form of the page is not blamed.
        Assert.Null(client.Page.QuerySelector("#sf-date")!.GetAttribute("aria-invalid"));
    }

    [Fact]
    public async Task Log_IsShownInTheHistory_AndCanBeRemoved()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var path = $"/trees/{await service.FirstAsync("trees")}";
        await client.OpenAsync(path);
        await client.SendAsync($"form[action='{path}/seen']", ("phase", "bud-break"), ("date", "2026-04-01"), ("leafCount", "2"), ("notes", Hostile));
        var entry = client.Page.QuerySelectorAll("#history ~ ul > li").First(row => row.TextContent.Contains("Buds open", StringComparison.Ordinal));
        Assert.Contains(Hostile, entry.TextContent, StringComparison.Ordinal);
        Assert.Empty(entry.QuerySelectorAll("b"));
        var remove = entry.QuerySelector("button")!.GetAttribute("formaction");
        await client.SendAsync("#act", [], $"button[formaction='{remove}']");
        Assert.DoesNotContain(client.Page.QuerySelectorAll("#history ~ ul > li"), row => row.TextContent.Contains("Buds open", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Log_IsFilteredAndOrdered()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var client = await PageClient.SignedInAsync(service, key);
        var path = $"/trees/{await NewTreeAsync(api)}";
        await client.OpenAsync(path);
        await client.SendAsync($"form[action='{path}/seen']", ("phase", "bud-swell"), ("date", "2026-03-01"));
        await client.SendAsync($"form[action='{path}/work']", ("technique", "feeding"), ("date", "2026-03-02"));
        await client.SendAsync($"form[action='{path}/seen']", ("phase", "bud-break"), ("date", "2026-03-20"));
        Assert.Equal(["Mar 20, 2026", "Mar 2, 2026", "Mar 1, 2026"], Dates());
        await client.OpenAsync(path + "?log=seen&order=oldest");
        Assert.Equal(["Mar 1, 2026", "Mar 20, 2026"], Dates());
        await client.OpenAsync(path + "?log=work");
        Assert.Equal(["Mar 2, 2026"], Dates());

        IEnumerable<string> Dates() => client.Page.QuerySelectorAll("#history ~ ul .when").Select(when => when.TextContent);
    }

    [Fact]
    public async Task Edit_ChangesWhatWasTyped_AndClearsWhatWasEmptied()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var client = await PageClient.SignedInAsync(service, key);
        var tree = await NewTreeAsync(api, notes: "to be emptied");
        await client.OpenAsync($"/trees/{tree}/edit");
        Assert.Equal("Japanese maple (Acer palmatum)", client.Page.QuerySelector("#f-species")!.GetAttribute("value"));
        await client.SendAsync("main form", ("name", Hostile), ("species", "ulmus parvifolia"), ("notes", ""), ("goals", "light"));
        Assert.Equal($"/trees/{tree}", client.Path);
        var kept = await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}");
        Assert.Equal(Hostile, kept.GetProperty("name").GetString());
        Assert.Equal("ulmus-parvifolia", kept.GetProperty("species").GetString());
        Assert.Equal(JsonValueKind.Null, kept.GetProperty("notes").ValueKind);
        Assert.Equal(["light"], kept.GetProperty("goals").EnumerateArray().Select(goal => goal.GetString()));
        Assert.Equal(Hostile, client.Page.QuerySelector("h1")!.TextContent);
    }

    [Fact]
    public async Task Edit_OfASpeciesNobodyKnows_NamesTheNearest()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var client = await PageClient.SignedInAsync(service, key);
        await client.OpenAsync($"/trees/{await NewTreeAsync(api)}/edit");
        await client.SendAsync("main form", ("species", "japanese mapel"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Contains("Japanese maple (Acer palmatum)", client.Page.QuerySelector("#f-species-fault")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Branches_AreKept_CorrectedAndDropped()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var client = await PageClient.SignedInAsync(service, key);
        var tree = await NewTreeAsync(api);
        await client.OpenAsync($"/trees/{tree}/branches");
        // The first row stays empty: rows close up.
        await client.SendAsync("main form", ("branches[1].id", "B4"), ("branches[1].crownZone", "lower"), ("branches[1].thicknessMm", "7.5"), ("branches[1].goals", "thicken-branch"));
        Assert.StartsWith($"/trees/{tree}", client.Path, StringComparison.Ordinal);
        var branch = Assert.Single((await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}")).GetProperty("branches").EnumerateArray());
        Assert.Equal("B4", branch.GetProperty("id").GetString());
        Assert.Equal(7.5, branch.GetProperty("thicknessMm").GetDouble());
        Assert.Contains("B4", client.Page.QuerySelector("section[aria-labelledby=state]")!.TextContent, StringComparison.Ordinal);
        await client.OpenAsync($"/trees/{tree}/branches");
        await client.SendAsync("main form", ("branches[0].thicknessMm", "thick"), ("branches[1].id", "B4"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("true", client.Page.QuerySelector("[name='branches[0].thicknessMm']")!.GetAttribute("aria-invalid"));
        await client.OpenAsync($"/trees/{tree}/branches");
        await client.SendAsync("main form", ("branches[0].id", ""), ("branches[0].crownZone", ""), ("branches[0].thicknessMm", ""), ("branches[0].goals", ""));
        Assert.Equal(0, (await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}")).GetProperty("branches").GetArrayLength());
    }

    [Fact]
    public async Task Trees_AreFilteredAndSorted_AndSayWhatToDoWhenThereAreNone()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var page = await client.OpenAsync("/trees?q=PINE&sort=species");
        var names = page.QuerySelectorAll(".grid .card p:first-of-type").Select(text => text.TextContent).ToList();
        Assert.NotEmpty(names);
        Assert.All(names, name => Assert.Contains("pine", name, StringComparison.OrdinalIgnoreCase));
        Assert.Equal(names.Order(StringComparer.OrdinalIgnoreCase), names);
        Assert.Equal("PINE", page.QuerySelector("#q")!.GetAttribute("value"));
        page = await client.OpenAsync("/trees?q=nothing-fits");
        Assert.NotNull(page.QuerySelector(".empty a[href='/trees']"));
        using var fresh = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        Assert.NotNull((await fresh.OpenAsync("/trees")).QuerySelector(".empty a[href='/start']"));
    }

    [Fact]
    public async Task Removal_IsAskedFirst_AndTwiceIsNoFault()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var client = await PageClient.SignedInAsync(service, key);
        var tree = await NewTreeAsync(api);
        await client.OpenAsync($"/trees/{tree}/remove");
        Assert.Equal(HttpStatusCode.OK, (await api.GetAsync($"/api/v1/trees/{tree}")).StatusCode);
        var (path, fields) = client.Filled("main form", []);
        await client.PostAsync(path, fields);
        Assert.Equal(HttpStatusCode.NotFound, (await api.GetAsync($"/api/v1/trees/{tree}")).StatusCode);
        await client.PostAsync(path, fields);
        Assert.Equal("/trees", client.Path);
    }

    [Fact]
    public async Task Strangers_ReachNoPageOfATree()
    {
        var tree = await service.FirstAsync("trees");
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        await client.OpenAsync("/more");
        var (_, fields) = client.Filled("form[action='/sign-out']", []);
        foreach (var path in new[] { "", "/edit", "/remove", "/branches" })
        {
            await client.OpenAsync($"/trees/{tree}{path}");
            Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
        }
        foreach (var path in new[] { "/work", "/seen", "/edit", "/branches", "/done/tip-pinch" })
        {
            await client.PostAsync($"/trees/{tree}{path}", fields);
            Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
        }
        await client.PostAsync($"/trees/{tree}/remove", fields);
        using var owner = service.ApiClient(await service.DemoKeyAsync());
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync($"/api/v1/trees/{tree}")).StatusCode);
    }

    private static async Task<string> NewTreeAsync(HttpClient api, string? notes = null)
    {
        using var garden = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented garden", latitude = 52.0, longitude = 5.0 });
        var id = (await garden.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
        using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{id}/trees", new
        {
            name = "Maple 1", species = "acer-palmatum", stage = "refinement", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous", notes
        });
        return (await tree.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
    }
}
