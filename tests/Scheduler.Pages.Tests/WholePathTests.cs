using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests;

/// <summary>From nothing to a subscribed calendar and logged work, as an owner walks it, with script and without.</summary>
[Collection(BrowserTests.Name)]
public sealed class WholePathTests(Browser browser)
{
    [BrowserTheory]
    [InlineData(360, true)]
    [InlineData(360, false)]
    [InlineData(1280, true)]
    [InlineData(1280, false)]
    public async Task Owner_GetsFromNothingToACalendarAndAPinch(int width, bool script)
    {
        var page = await browser.OpenAsync(new View(width, Script: script));
        await page.GotoAsync("/");
        await page.ClickAsync("a[href='/account/new']");
        await page.FillAsync("[name=name]", "Invented Owner");
        await page.ClickAsync("main button[type=submit]");
        var key = await page.InputValueAsync("#new-key");
        Assert.StartsWith("key_", key, StringComparison.Ordinal);
        await page.ClickAsync("form[action='/account/key'] button");

        // Nothing is there yet, so it begins with the place. The search knows the invented places of the recorded weather.
        await AtAsync(page, "**/start");
        await page.FillAsync("[name=q]", "elm");
        await page.ClickAsync("form[role=search] button");
        await page.ClickAsync(".card form button");
        await AtAsync(page, "**/trees/new?garden=*");
        await Expect(page.Locator(".facts")).ToContainTextAsync("ready");

        await page.FillAsync("[name=name]", "Maple 1");
        await page.FillAsync("[name=species]", "japanese maple");
        await page.SelectOptionAsync("[name=stage]", "refinement");
        await page.SelectOptionAsync("[name=health]", "vigorous");
        await page.Locator("label:has(input[value=slender])").ClickAsync();
        await page.ClickAsync("main form button.main");

        await AtAsync(page, "**/start/calendar");
        await page.ClickAsync("main form button");
        await Expect(page.Locator(".qr")).ToBeVisibleAsync();
        var url = await page.InputValueAsync("#feed-url");
        Assert.Equal(url, await page.GetAttributeAsync($"a[href='{url}']", "href"));
        Assert.Equal("webcal" + url[url.IndexOf("://", StringComparison.Ordinal)..], await page.GetAttributeAsync("a.main[href^='webcal:']", "href"));
        using var calendars = new HttpClient();
        var before = await calendars.GetStringAsync(url);
        Assert.Contains("BEGIN:VEVENT", before, StringComparison.Ordinal);
        Assert.Contains("SUMMARY:Pinch window opens: Maple 1", before, StringComparison.Ordinal);

        await page.ClickAsync("a.main[href='/today']");
        var pinch = page.Locator("article", new() { HasText = "Pinch window opens" });
        await pinch.Locator("summary").First.ClickAsync();
        await Expect(pinch.Locator("details").First).ToContainTextAsync("What to do:");
        await pinch.Locator("button.do").First.ClickAsync();
        await Expect(page.Locator(".notice")).ToContainTextAsync("Logged for Maple 1.");
        await Expect(page.Locator("article", new() { HasText = "Pinch window opens" })).ToHaveCountAsync(0);
        Assert.Contains("SUMMARY:Done: Pinch window opens: Maple 1", await calendars.GetStringAsync(url), StringComparison.Ordinal);

        // Taken back, it stands open again, here and in the calendar.
        await page.ClickAsync(".notice button");
        await Expect(page.Locator("article", new() { HasText = "Pinch window opens" })).ToHaveCountAsync(1);
        Assert.DoesNotContain("SUMMARY:Done: Pinch", await calendars.GetStringAsync(url), StringComparison.Ordinal);
        await page.Locator("article", new() { HasText = "Pinch window opens" }).Locator("button.do").First.ClickAsync();

        await page.ClickAsync("nav a[href='/trees']");
        await page.ClickAsync(".grid a");
        await Expect(page.Locator("#history ~ ul")).ToContainTextAsync("Tip pinch in spring");
        using var api = browser.Service.ApiClient(key);
        var trees = await FirstAsync(api, $"/api/v1/gardens/{(await FirstAsync(api, "/api/v1/gardens")).GetProperty("id").GetString()}/trees");
        Assert.Equal("tip-pinch", (await FirstAsync(api, $"/api/v1/trees/{trees.GetProperty("id").GetString()}/work")).GetProperty("technique").GetString());
        await page.Context.CloseAsync();
    }

    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task SigningOut_LeavesNothingBehindTheBackButton(bool script)
    {
        var page = await browser.OpenSignedInAsync(View.Phone with { Script = script });
        await page.GotoAsync("/today");
        await page.ClickAsync("nav a[href='/more']");
        await page.ClickAsync("form[action='/sign-out'] button");
        await AtAsync(page, "**/");
        await Expect(page.Locator("a[href='/sign-in']").First).ToBeVisibleAsync();
        await page.GoBackAsync();
        await AtAsync(page, "**/sign-in?next=*");
        Assert.DoesNotContain(await page.Context.CookiesAsync(), cookie => cookie.Name == "signed-in");
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task ExpiredSession_IsSaid_AndNothingIsLogged()
    {
        var page = await browser.OpenSignedInAsync(View.Phone);
        await page.GotoAsync("/today");
        await page.Context.ClearCookiesAsync(new() { Name = "signed-in" });
        await page.Locator("button.do").First.ClickAsync();
        await AtAsync(page, "**/sign-in?expired=form");
        await Expect(page.Locator(".notice")).ToContainTextAsync("was not saved");
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task DoubleTap_LogsOnce_AndTheBackButtonSendsNothing()
    {
        var key = await browser.Service.NewAccountAsync();
        using var api = browser.Service.ApiClient(key);
        var tree = await NewTreeAsync(api);
        var page = await browser.OpenAsync(View.Phone with { Script = false });
        await Browser.SignInAsync(page, key);
        await page.GotoAsync($"/trees/{tree}");
        await page.SelectOptionAsync("[name=technique]", "wiring");
        await page.FillAsync("#f-notes", "first");
        // Without script nothing but the form's own key keeps two taps from counting twice.
        await page.Locator("form:has([name=technique]) button.main").DblClickAsync();
        await AtAsync(page, "**did=work**");
        Assert.Equal(1, await CountAsync(api, tree));
        await page.GoBackAsync();
        await page.GoForwardAsync();
        await page.ReloadAsync();
        Assert.Equal(1, await CountAsync(api, tree));
        // Going back and correcting is another entry, not the same one again.
        await page.GoBackAsync();
        await page.SelectOptionAsync("[name=technique]", "feeding");
        await page.Locator("form:has([name=technique]) button.main").ClickAsync();
        await AtAsync(page, "**did=work**");
        Assert.Equal(2, await CountAsync(api, tree));
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task FaultyForm_KeepsWhatWasTyped_AndLeadsToEachField()
    {
        var key = await browser.Service.NewAccountAsync();
        using var api = browser.Service.ApiClient(key);
        var tree = await NewTreeAsync(api);
        var page = await browser.OpenAsync(View.Phone);
        await Browser.SignInAsync(page, key);
        await page.GotoAsync($"/trees/{tree}");
        await page.SelectOptionAsync("[name=technique]", "wiring");
        await page.ClickAsync("form:has([name=technique]) summary");
        await page.FillAsync("[name=minutes]", "a while");
        await page.FillAsync("#f-date", "2030-01-01");
        await page.ClickAsync("form:has([name=technique]) button.main");
        await Expect(page.Locator(".faults li")).ToHaveCountAsync(2);
        Assert.Equal("a while", await page.InputValueAsync("[name=minutes]"));
        Assert.Equal("wiring", await page.InputValueAsync("[name=technique]"));
        Assert.True(await page.EvaluateAsync<bool>("document.activeElement.matches('.faults')"));
        await page.ClickAsync(".faults a[href='#f-minutes']");
        await Expect(page.Locator("#f-minutes")).ToBeVisibleAsync();
        await Expect(page.Locator("#f-minutes")).ToHaveAttributeAsync("aria-invalid", "true");
        await page.Context.CloseAsync();
    }

    // Asked of the address alone: waiting for a load event that has come already can take for ever.
    private static Task AtAsync(IPage page, string glob) =>
        Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex(System.Text.RegularExpressions.Regex.Escape(glob).Replace(@"\*\*", ".*").Replace(@"\*", ".*") + "$"));

    private static ILocatorAssertions Expect(ILocator locator) => Assertions.Expect(locator);

    private static async Task<string> NewTreeAsync(HttpClient api)
    {
        using var garden = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented garden", latitude = 52.0, longitude = 5.0 });
        var id = (await garden.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
        using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{id}/trees", new
        {
            name = "Elm 1", species = "ulmus-parvifolia", stage = "refinement", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
        });
        return (await tree.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
    }

    private static async Task<int> CountAsync(HttpClient api, string tree) =>
        (await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}/work")).GetProperty("items").GetArrayLength();

    private static async Task<JsonElement> FirstAsync(HttpClient api, string path) => (await api.GetFromJsonAsync<JsonElement>(path)).GetProperty("items")[0];
}
