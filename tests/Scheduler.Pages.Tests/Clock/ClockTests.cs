using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Clock;

public sealed class ClockTests(PagesService service) : IClassFixture<PagesService>
{
    private static readonly string[] Springs = ["2018-03-28", "2019-03-20", "2020-03-15", "2021-04-02", "2022-03-24", "2023-03-27", "2024-03-12", "2025-03-18"];

    [Fact]
    public async Task Clock_IsAskedByAButton_RunsOn_AndSaysWhatTheApiSays()
    {
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        using var client = await PageClient.SignedInAsync(service, key);
        var (garden, tree) = await GardenAsync(api);
        var page = await client.OpenAsync($"/clock?garden={garden}");
        Assert.NotNull(page.QuerySelector(".empty"));
        foreach (var day in Springs)
            await SawAsync(api, tree, day);
        page = await client.OpenAsync($"/clock?garden={garden}");
        Assert.Contains("8 logged dates", page.Body!.TextContent, StringComparison.Ordinal);
        await client.SendAsync($"form[action='/clock/{garden}']", ("lead", ""));
        page = await DoneAsync(client, $"/clock?garden={garden}");
        var told = await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/hindcast?species=acer-palmatum&phase=bud-break");
        var rows = page.QuerySelectorAll("#s-acer-palmatum-bud-break ~ details tbody tr");
        Assert.Equal(Springs.Length, rows.Length);
        Assert.Equal(Springs.Select(day => day[..4]), rows.Select(row => row.QuerySelector("th")!.TextContent));
        var error = Math.Round(told.GetProperty("maeDays").GetDouble(), 1);
        Assert.Contains($"{error:0.0} days off", page.Body!.TextContent, StringComparison.Ordinal);
        var bias = rows.Select(row => int.Parse(row.QuerySelectorAll("td")[^1].TextContent.Replace('\u2212', '-'), System.Globalization.CultureInfo.InvariantCulture)).Average();
        Assert.Equal(told.GetProperty("biasDays").GetDouble(), bias, 0.01);
        Assert.Null(page.QuerySelector("[data-poll]"));

        // One more date, and the page says that its figures are no longer of today.
        await SawAsync(api, tree, "2017-03-30");
        page = await client.OpenAsync($"/clock?garden={garden}");
        Assert.Contains("has changed since", page.Body!.TextContent, StringComparison.Ordinal);
        // Another question of the same garden stands on its own.
        page = await client.OpenAsync($"/clock?garden={garden}&lead=14");
        Assert.Empty(page.QuerySelectorAll("#s-acer-palmatum-bud-break"));
    }

    private static async Task<AngleSharp.Dom.IDocument> DoneAsync(PageClient client, string path)
    {
        for (var tries = 0; tries < 300; tries++)
        {
            var page = await client.OpenAsync(path);
            if (page.QuerySelector("[data-poll]") is null)
                return page;
            Assert.NotNull(page.QuerySelector("progress[max]"));
            await Task.Delay(100);
        }
        throw new TimeoutException("The work did not end.");
    }

    private static async Task<(string Garden, string Tree)> GardenAsync(HttpClient api)
    {
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Made up", latitude = 52.0, longitude = 5.0 });
        var garden = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
        using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{garden}/trees", new
        {
            name = "Maple", species = "acer-palmatum", stage = "ramification", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
        });
        return (garden, (await tree.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!);
    }

    private static async Task SawAsync(HttpClient api, string tree, string date)
    {
        using var answer = await api.PostAsJsonAsync($"/api/v1/trees/{tree}/observations", new { phase = "bud-break", date });
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }
}
