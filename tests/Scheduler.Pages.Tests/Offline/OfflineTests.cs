using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Offline;

/// <summary>In the garden without network, in a real browser with its real store.</summary>
[Collection(BrowserTests.Name)]
public sealed class OfflineTests(Browser browser)
{
    [BrowserFact]
    public async Task Done_TappedWithoutNetwork_IsSentOnceWhenItIsBack()
    {
        var key = await browser.Service.DemoKeyAsync();
        using var api = browser.Service.ApiClient(key);
        var page = await ReadyAsync(key);
        var button = page.Locator("button[formaction*='/done/']").First;
        var tree = (await page.Locator(".row:has(button[formaction*='/done/']) a[href^='/trees/']").First.GetAttributeAsync("href"))!.Split('/')[^1];
        var action = (await button.GetAttributeAsync("formaction"))!;
        var before = await CountAsync(api, tree);

        await page.Context.SetOfflineAsync(true);
        await button.ClickAsync();
        await page.WaitForSelectorAsync("#waiting-taps");
        Assert.True(await page.Locator("#offline").IsVisibleAsync());
        Assert.NotNull(await page.Locator($"button[formaction='{action}']").GetAttributeAsync("data-waiting"));
        Assert.Equal(before, await CountAsync(api, tree));

        await page.Context.SetOfflineAsync(false);
        for (var tries = 0; tries < 100 && await CountAsync(api, tree) == before; tries++)
            await Task.Delay(100);
        Assert.Equal(before + 1, await CountAsync(api, tree));
        await page.GotoAsync("/today");
        await Browser.UntilAsync(page, "!document.getElementById('waiting-taps')");
        await page.ReloadAsync();
        await Task.Delay(1000);
        Assert.Equal(before + 1, await CountAsync(api, tree));
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task LastPages_OpenWithoutNetwork_AndSayHowOldTheyAre()
    {
        var page = await ReadyAsync(await browser.Service.DemoKeyAsync());
        await page.Context.SetOfflineAsync(true);
        await page.GotoAsync("/today");
        Assert.True(await page.Locator("#offline").IsVisibleAsync());
        Assert.True(await page.Locator(".row").CountAsync() > 0);
        Assert.Equal("rgb(247, 245, 238)", await page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor"));
        await page.GotoAsync("/gardens");
        Assert.Equal(0, await page.Locator(".card").CountAsync());
        Assert.NotNull(await page.EvaluateAsync<string?>("document.documentElement.dataset.kept ?? null"));
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task SignOut_LeavesNothingInTheStore()
    {
        var page = await ReadyAsync(await browser.Service.DemoKeyAsync());
        await page.GotoAsync("/more");
        await page.ClickAsync("form[action='/sign-out'] button");
        await Browser.UntilAsync(page, "caches.keys().then(names => !names.some(name => name.startsWith('pages-')))");
        await page.Context.SetOfflineAsync(true);
        await page.GotoAsync("/today");
        Assert.Equal(0, await page.Locator(".row").CountAsync());
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task Store_OfAnotherOwner_IsThrownAwayAtSignIn()
    {
        var page = await ReadyAsync(await browser.Service.DemoKeyAsync());
        await page.Context.ClearCookiesAsync();
        await Browser.SignInAsync(page, await browser.Service.NewAccountAsync());
        await page.GotoAsync("/more");
        await Browser.UntilAsync(page, "caches.keys().then(names => names.filter(name => name.startsWith('pages-')).length === 0)");
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task Pages_CanBeInstalled()
    {
        var page = await browser.OpenAsync(View.Phone);
        await page.GotoAsync("/");
        var address = await page.GetAttributeAsync("link[rel=manifest]", "href");
        var manifest = await page.EvaluateAsync<JsonElement>("address => fetch(address).then(answer => answer.json())", address);
        Assert.Equal("standalone", manifest.GetProperty("display").GetString());
        foreach (var icon in manifest.GetProperty("icons").EnumerateArray())
        {
            var side = await page.EvaluateAsync<int>("src => { const image = new Image(); image.src = src; return image.decode().then(() => image.naturalWidth); }", icon.GetProperty("src").GetString());
            Assert.Equal(icon.GetProperty("sizes").GetString(), $"{side}x{side}");
        }
        var session = await page.Context.NewCDPSessionAsync(page);
        var faults = await session.SendAsync("Page.getInstallabilityErrors");
        Assert.DoesNotContain("manifest", faults.ToString(), StringComparison.OrdinalIgnoreCase);
        await page.Context.CloseAsync();
    }

    /// <summary>Signed in, with the worker in charge and Today in its store.</summary>
    private async Task<IPage> ReadyAsync(string key)
    {
        var page = await browser.OpenAsync(View.Phone);
        await Browser.SignInAsync(page, key);
        await Browser.UntilAsync(page, "navigator.serviceWorker.controller !== null");
        await page.GotoAsync("/today");
        await Browser.UntilAsync(page, "caches.match('/today').then(kept => kept !== undefined)");
        return page;
    }

    private static async Task<int> CountAsync(HttpClient api, string tree) =>
        (await api.GetFromJsonAsync<JsonElement>($"/api/v1/trees/{tree}/work?limit=200")).GetProperty("items").GetArrayLength();
}
