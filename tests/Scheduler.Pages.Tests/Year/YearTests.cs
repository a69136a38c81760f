using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Season;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Year;

public sealed class YearTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Year_HoldsEveryWindowOfTheApi_InChartMonthsAndTable()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var garden = await SeasonTests.NorthAsync(api);
        var count = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/windows?from=2026-01-01&to=2026-12-31&limit=200")).GetProperty("items")
            .EnumerateArray().Count(window => window.GetProperty("state").GetString() != "withdrawn");
        var page = await client.OpenAsync($"/year?garden={garden}");
        Assert.InRange(count, 20, 199);
        // The page counts early and late dates too, which may touch the year where the likely ones do not.
        var rows = page.QuerySelectorAll(".year-chart .year-row:not(.head)").Length;
        Assert.InRange(rows, count, count + 20);
        Assert.Equal(rows, page.QuerySelectorAll(".year-months .row").Length);
        page = await client.OpenAsync($"/year?garden={garden}&as=table");
        Assert.Equal(rows, page.QuerySelectorAll("tbody tr").Length);
        Assert.Empty(page.QuerySelectorAll(".year-chart"));
    }

    [Fact]
    public async Task Filters_KeepWhatFits()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var garden = await SeasonTests.NorthAsync(api);
        var page = await client.OpenAsync($"/year?garden={garden}&as=table&state=open&sort=closes");
        Assert.NotEmpty(page.QuerySelectorAll("tbody tr"));
        Assert.All(page.QuerySelectorAll("tbody tr"), row => Assert.Equal("open", row.QuerySelectorAll("td")[^1].TextContent));
        var tree = page.QuerySelector("tbody th a")!;
        page = await client.OpenAsync($"/year?garden={garden}&as=table&tree={tree.GetAttribute("href")!.Split('/')[^1]}");
        Assert.All(page.QuerySelectorAll("tbody th"), name => Assert.Equal(tree.TextContent, name.TextContent));
        page = await client.OpenAsync($"/year?garden={garden}&technique=no-such-work");
        Assert.Contains("No window fits", page.Body!.TextContent, StringComparison.Ordinal);
    }
}
