using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests;

/// <summary>What holds for every page as it is drawn: readable for all, big enough for a thumb, nothing cut off, no script or style refused.</summary>
[Collection(BrowserTests.Name)]
public sealed class EveryPageTests(Browser browser)
{
    private const int SmallestTargetPx = 44;

    public static TheoryData<string, int, bool> Cases()
    {
        // Colors do not depend on the width: light is looked at on the narrow screen, dark on the wide one.
        var cases = new TheoryData<string, int, bool>();
        foreach (var page in EveryPage.All)
        {
            cases.Add(page.Name, 360, false);
            cases.Add(page.Name, 1280, true);
        }
        return cases;
    }

    [BrowserTheory]
    [MemberData(nameof(Cases))]
    public async Task Page_IsReadableByEverybody(string name, int width, bool dark)
    {
        var (page, said) = await OpenAsync(name, new View(width, dark));
        var found = await page.RunAxe(new AxeRunOptions { RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] } });
        Assert.True(found.Violations.Length == 0, string.Join('\n', found.Violations.Select(fault => $"{fault.Id}: {fault.Help}\n{string.Join('\n', fault.Nodes.Take(3).Select(node => node.Html))}")));
        Assert.Empty(said);
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        if (width == 360)
            Assert.Empty(await SmallTargetsAsync(page));
        await ShotAsync(page, $"{name}-{width}{(dark ? "-dark" : "")}");
        await page.Context.CloseAsync();
    }

    [BrowserTheory]
    [MemberData(nameof(Names))]
    public async Task Page_CanBeWalkedByKeyboard(string name)
    {
        var (page, _) = await OpenAsync(name, new View(1280));
        await page.EvaluateAsync("document.activeElement?.blur()");
        var wanted = await page.EvaluateAsync<int>(
            "[...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')].filter(e => e.checkVisibility())"
            // Of radio buttons that belong together, Tab reaches one; arrows the others.
            + ".filter(e => e.type !== 'radio' || e === (document.querySelector(`[name='${e.name}']:checked`) ?? document.querySelector(`[name='${e.name}']`))).length");
        // A field for a date or a time holds its parts and a button, each of them a stop of its own.
        var stops = wanted + 3 * await page.EvaluateAsync<int>("document.querySelectorAll('input[type=date], input[type=time]').length");
        var reached = new HashSet<string>();
        for (var step = 0; step < stops + 5; step++)
        {
            await page.Keyboard.PressAsync("Tab");
            var at = await page.EvaluateAsync<string?>(
                """
                (() => {
                  const e = document.activeElement;
                  if (!e || e === document.body) return null;
                  const style = getComputedStyle(e);
                  const seen = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
                  const all = [...document.querySelectorAll('*')];
                  return (seen ? '' : 'no focus ring: ' + e.outerHTML.slice(0, 120)) + '#' + all.indexOf(e);
                })()
                """);
            if (at is null)
                continue;
            Assert.StartsWith("#", at, StringComparison.Ordinal);
            reached.Add(at);
        }
        Assert.True(reached.Count >= wanted, $"{reached.Count} of {wanted} controls were reached.");
        await page.Context.CloseAsync();
    }

    // German words are longer: nothing may be pushed off a narrow screen.
    [BrowserTheory]
    [MemberData(nameof(Names))]
    public async Task Page_FitsInTheOtherLanguage(string name)
    {
        var (page, said) = await OpenAsync(name, View.Phone with { Language = "de-DE" });
        Assert.Equal("de", await page.GetAttributeAsync("html", "lang"));
        Assert.Equal(360, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        Assert.Empty(await SmallTargetsAsync(page));
        Assert.Empty(said);
        await ShotAsync(page, $"{name}-360-de");
        await page.Context.CloseAsync();
    }

    public static TheoryData<string> Names() => [.. EveryPage.All.Select(page => page.Name)];

    private async Task<(IPage Page, List<string> Said)> OpenAsync(string name, View view)
    {
        var wanted = EveryPage.All.Single(one => one.Name == name);
        var page = wanted.SignedIn ? await browser.OpenSignedInAsync(view) : await browser.OpenAsync(view);
        var said = new List<string>();
        page.Console += (_, message) =>
        {
            // The page of an address without anything is answered 404, which the console notes.
            if (message.Type is "error" or "warning" && !message.Text.Contains("404", StringComparison.Ordinal))
                said.Add(message.Text);
        };
        page.PageError += (_, error) => said.Add(error);
        await page.GotoAsync(await FilledAsync(wanted.Path));
        return (page, said);
    }

    private async Task<string> FilledAsync(string path) =>
        path.Contains('{', StringComparison.Ordinal) ? path.Replace("{garden}", await browser.Service.FirstAsync("gardens")).Replace("{tree}", await browser.Service.FirstAsync("trees")).Replace("{feed}", await browser.Service.FirstAsync("feeds")).Replace("{road}", await browser.RoadAsync()) : path;

    // Links within a sentence are exempt (WCAG 2.2, 2.5.8); what stands alone is for the thumb.
    private static Task<string[]> SmallTargetsAsync(IPage page) => page.EvaluateAsync<string[]>(
        $$"""
        [...document.querySelectorAll('.button, .nav a, .tabs a, summary, input:not([type=hidden]), select, textarea')].filter(e => e.checkVisibility()).filter(e => {
          const box = (e.matches('[type=checkbox], [type=radio]') ? e.closest('label') ?? e : e).getBoundingClientRect();
          return box.height < {{SmallestTargetPx}} - 0.5 || box.width < {{SmallestTargetPx}} - 0.5;
        }).map(e => e.outerHTML.slice(0, 160))
        """);

    private static async Task ShotAsync(IPage page, string name)
    {
        // Pictures are kept only where somebody wants to look at them.
        if (Environment.GetEnvironmentVariable("PAGE_SHOTS") is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }
}
