using System.Net.Http.Json;
using System.Text.Json;
using Deque.AxeCore.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Clock;

/// <summary>The clock's figures as they are drawn, asked for with script and without.</summary>
[Collection(BrowserTests.Name)]
public sealed class ClockLookTests(Browser browser)
{
    [BrowserTheory]
    [InlineData(360, false, true)]
    [InlineData(360, true, false)]
    [InlineData(1280, false, false)]
    [InlineData(1280, true, true)]
    public async Task Clock_RunsToItsResult_AndIsFoundAgain(int width, bool dark, bool script)
    {
        using var api = new HttpClient { BaseAddress = browser.Address };
        using var account = await api.PostAsJsonAsync("/api/v1/accounts", new { name = "Invented Owner" });
        var key = (await account.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accessKey").GetString()!;
        api.DefaultRequestHeaders.Authorization = new("Bearer", key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Made up", latitude = 52.0, longitude = 5.0 });
        var garden = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
        foreach (var (species, phase) in new[] { ("acer-palmatum", "bud-break"), ("fagus-sylvatica", "first-leaf") })
        {
            using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{garden}/trees", new
            {
                name = "Tree of " + species, species, stage = "ramification", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
            });
            var id = (await tree.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
            for (var year = 2018; year <= 2025; year++)
            {
                using var seen = await api.PostAsJsonAsync($"/api/v1/trees/{id}/observations", new { phase, date = $"{year}-04-{5 + year * 7 % 17:00}" });
                Assert.True(seen.IsSuccessStatusCode, await seen.Content.ReadAsStringAsync());
            }
        }
        var page = await browser.OpenAsync(new View(width, dark, script));
        await Browser.SignInAsync(page, key);
        await page.GotoAsync("/clock");
        await page.ClickAsync("form.filter .button.main");
        // Left while it may still run, and found again.
        await page.GotoAsync("/today");
        await page.GotoAsync($"/clock?garden={garden}");
        await page.WaitForSelectorAsync("#s-fagus-sylvatica-first-leaf", new() { Timeout = 30_000 });
        Assert.Equal(16, await page.Locator(".errors .bar").CountAsync());
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        if (script)
            Assert.Empty((await page.RunAxe()).Violations.Select(fault => fault.Id));
        if (Environment.GetEnvironmentVariable("PAGE_SHOTS") is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"clock-result-{width}{(dark ? "-dark" : "")}.png"), FullPage = true });
        await page.Context.CloseAsync();
    }
}
