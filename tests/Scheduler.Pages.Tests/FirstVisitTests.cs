using Microsoft.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests;

/// <summary>The first visit of a phone: little over the wire, and soon there on a slow processor.</summary>
[Collection(BrowserTests.Name)]
public sealed class FirstVisitTests(Browser browser, Xunit.Abstractions.ITestOutputHelper output)
{
    private const int MostBytes = 100 * 1024;
    private const int MostRequests = 12;
    private const int Slowdown = 4;
    private const int Visits = 3;

    [BrowserTheory]
    [InlineData("/")]
    [InlineData("/today")]
    [InlineData("/trees/{tree}")]
    public async Task FirstVisit_IsSmall(string path)
    {
        path = path.Replace("{tree}", await browser.Service.FirstAsync("trees"), StringComparison.Ordinal);
        // Bytes and requests are judged, as the page sets them. The time, the best of several fresh browsers, is only told: the machine sets it.
        var (bytes, requests, ms) = (0.0, 0, double.MaxValue);
        for (var visit = 0; visit < Visits; visit++)
        {
            var page = path == "/" ? await browser.OpenAsync(View.Phone) : await browser.OpenSignedInAsync(View.Phone);
            var session = await page.Context.NewCDPSessionAsync(page);
            await session.SendAsync("Network.enable");
            await session.SendAsync("Network.setCacheDisabled", new() { ["cacheDisabled"] = true });
            await session.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = Slowdown });
            await page.GotoAsync(path, new() { WaitUntil = WaitUntilState.Load });
            await page.WaitForFunctionAsync("performance.getEntriesByType('navigation')[0].loadEventEnd > 0");
            bytes = await page.EvaluateAsync<double>(
                "[...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')].reduce((sum, one) => sum + one.transferSize, 0)");
            requests = await page.EvaluateAsync<int>("performance.getEntriesByType('resource').length + 1");
            ms = Math.Min(ms, await page.EvaluateAsync<double>("performance.getEntriesByType('navigation')[0].loadEventEnd"));
            await page.Context.CloseAsync();
        }
        output.WriteLine($"{path}: {bytes / 1024:0.0} kB in {requests} requests, {ms:0} ms");
        Assert.InRange(bytes, 1, MostBytes);
        Assert.InRange(requests, 1, MostRequests);
    }
}
