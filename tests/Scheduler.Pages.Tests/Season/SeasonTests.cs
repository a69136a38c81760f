using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Season;

public sealed class SeasonTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Season_SaysWhatTheApiSays_InDrawingAndTable()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var garden = await NorthAsync(api);
        var told = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/season?species=acer-palmatum")).GetProperty("items")[0];
        var page = await client.OpenAsync($"/season?garden={garden}&species=acer-palmatum");
        var phases = told.GetProperty("phases").EnumerateArray().ToList();
        var rows = page.QuerySelectorAll("section[aria-labelledby=chosen] table")[0].QuerySelectorAll("tbody tr");
        Assert.Equal(phases.Count, rows.Length);
        for (var at = 0; at < rows.Length; at++)
            Assert.Equal(Day(phases[at].GetProperty("likely")), rows[at].QuerySelectorAll("td")[1].TextContent);
        var years = told.GetProperty("normalYears").GetString()!;
        Assert.Contains($"{years[..4]} to {years[5..9]}", page.QuerySelector(".standing")!.TextContent, StringComparison.Ordinal);
        // Heat by today, as a number in the table and in the sentence for who cannot see the drawing.
        var heat = Math.Round(told.GetProperty("heat").GetProperty("totalCd").GetDouble());
        Assert.Contains($"{heat:0}", page.QuerySelector("#heat-said")!.TextContent, StringComparison.Ordinal);
        var today = page.QuerySelectorAll("section[aria-labelledby=chosen] table")[1].QuerySelectorAll("tbody tr").Single(row => row.QuerySelector("th")!.TextContent == "Apr 8");
        Assert.Contains($"{heat:0}", today.QuerySelector("td")!.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(page.QuerySelectorAll(".chart .this-year.ahead[d^=M]"));
        Assert.Contains(page.QuerySelectorAll(".legend li"), item => item.TextContent.Contains("forecast to", StringComparison.Ordinal));
        Assert.NotEmpty(page.QuerySelectorAll(".credit"));
        Assert.Empty(page.QuerySelectorAll("[style]"));
    }

    [Fact]
    public async Task SpeciesList_FiltersAndSorts()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var garden = await NorthAsync(api);
        var items = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/season")).GetProperty("items").EnumerateArray().ToList();
        var page = await client.OpenAsync($"/season?garden={garden}&sort=early");
        var shown = page.QuerySelectorAll("section[aria-labelledby=species] .row-name a").Select(link => link.GetAttribute("href")!.Split('=')[^1]).ToList();
        Assert.Equal(items.Count, shown.Count);
        var days = items.ToDictionary(item => item.GetProperty("species").GetString()!, item => item.GetProperty("daysEarly") is { ValueKind: JsonValueKind.Number } number ? number.GetDouble() : double.NegativeInfinity);
        Assert.Equal(days.Values.OrderDescending(), shown.Select(species => days[species]));
        page = await client.OpenAsync($"/season?garden={garden}&q=PINUS");
        Assert.Equal(2, page.QuerySelectorAll("section[aria-labelledby=species] .row").Length);
        page = await client.OpenAsync($"/season?garden={garden}&q=nothing-like-it");
        Assert.Contains("No species fits", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task GardenWithoutTrees_AsksForOne_AndOthersGardensAreNotThere()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Bare", latitude = 52.0, longitude = 5.0 });
        using var client = await PageClient.SignedInAsync(service, key);
        foreach (var path in new[] { "/season", "/year", "/plan" })
        {
            var page = await client.OpenAsync(path);
            Assert.NotNull(page.QuerySelector(".empty a[href^='/trees/new']"));
        }
        foreach (var path in new[] { "/season", "/year", "/plan", "/clock" })
        {
            await client.OpenAsync($"{path}?garden={await service.FirstAsync("gardens")}");
            Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
        }
    }

    [Fact]
    public async Task Imperial_ShowsHeatInFahrenheit()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        await client.SendAsync("form[action='/more']", ("language", "de"), ("units", "imperial"));
        var page = await client.OpenAsync("/season");
        Assert.Contains("°F", page.QuerySelector("#heat-title")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Wärme", page.QuerySelector("#heat-title")!.TextContent, StringComparison.Ordinal);
        // Kept with the account, which other tests read as well.
        await client.OpenAsync("/more");
        await client.SendAsync("form[action='/more']", ("language", "en"), ("units", "metric"));
    }

    internal static async Task<string> NorthAsync(HttpClient api) => (await api.GetFromJsonAsync<JsonElement>("/api/v1/gardens")).GetProperty("items").EnumerateArray()
        .Single(garden => garden.GetProperty("latitude").GetDouble() > 0).GetProperty("id").GetString()!;

    private static string Day(JsonElement date)
    {
        if (date.ValueKind == JsonValueKind.Null)
            return "";
        var day = DateOnly.Parse(date.GetString()!, System.Globalization.CultureInfo.InvariantCulture);
        // With the year where it is another one, half a year away or more.
        var isNear = day.Year == 2026 || Math.Abs(day.DayNumber - new DateOnly(2026, 4, 8).DayNumber) < 180;
        return day.ToString(isNear ? "MMM d" : "MMM d, yyyy", System.Globalization.CultureInfo.InvariantCulture);
    }
}
