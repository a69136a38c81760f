using System.Net;
using System.Text.RegularExpressions;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Frame;

public sealed partial class FrameTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Form_WithoutItsToken_IsRefusedAndChangesNothing()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        await client.OpenAsync("/today");
        foreach (var action in Buttons(client).Append("/sign-out"))
        {
            var answer = await client.PostAsync(action, [KeyValuePair.Create("form-key", "x")]);
            Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
            Assert.NotNull(answer.QuerySelector("h1"));
        }
        await client.OpenAsync("/today");
        Assert.Equal("/today", client.Path);
    }

    [Fact]
    public async Task Form_WithATokenOfSomebodyElse_IsRefused()
    {
        using var one = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        await one.OpenAsync("/today");
        var (_, fields) = one.Filled("#act", []);
        using var other = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        await other.PostAsync("/sign-out", fields);
        Assert.Equal(HttpStatusCode.BadRequest, other.Last.StatusCode);
    }

    [Fact]
    public async Task Page_LetsNothingInItsTextRun()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        foreach (var path in new[] { "/", "/today", "/more", "/nothing-here" })
        {
            var page = await client.OpenAsync(path);
            var policy = Assert.Single(client.Last.Headers.GetValues("Content-Security-Policy"));
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("form-action 'self'", policy, StringComparison.Ordinal);
            Assert.Empty(page.QuerySelectorAll("[style], style, script:not([src])"));
            Assert.DoesNotContain(page.All, element => element.Attributes.Any(attribute => attribute.Name.StartsWith("on", StringComparison.Ordinal)));
            Assert.True(client.Last.Headers.CacheControl?.NoStore);
        }
    }

    [Fact]
    public async Task UnknownAddress_IsAPageForBrowsersAndAProblemForPrograms()
    {
        using var client = new PageClient(service);
        var page = await client.OpenAsync("/nothing-here");
        Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
        Assert.NotNull(page.QuerySelector("h1"));
        using var program = await client.Http.GetAsync("/api/v1/nothing-here");
        Assert.Equal("application/problem+json", program.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task WhatGoesWrong_IsToldAsAPage()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var page = await client.OpenAsync("/today?garden=none");
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("This cannot be answered", page.QuerySelector("h1")!.TextContent);
        Assert.Contains("default-src 'none'", Assert.Single(client.Last.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        await using var strict = new PagesService().With("Demo", "false").With("RateLimits:SignUpsPerTenMinutes", "1");
        using var eager = new PageClient(strict);
        await eager.OpenAsync("/account/new");
        var (path, fields) = eager.Filled("form[action='/account/new']", [("name", "Invented Owner")]);
        await eager.PostAsync(path, fields);
        await eager.PostAsync(path, fields);
        Assert.Equal(HttpStatusCode.TooManyRequests, eager.Last.StatusCode);
        Assert.Equal("Too many at once", eager.Page.QuerySelector("h1")!.TextContent);
        Assert.NotNull(eager.Last.Headers.RetryAfter);
    }

    [Fact]
    public async Task Pages_AreSentSmall_UnlessTheyShowASecret()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        foreach (var (path, isSmall) in new[] { ("/today", true), ("/trees", true), ("/start/calendar", false), ("/start?q=x", false) })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, path);
            request.Headers.AcceptEncoding.ParseAdd("gzip");
            using var answer = await client.Http.SendAsync(request);
            Assert.Equal(isSmall ? ["gzip"] : [], answer.Content.Headers.ContentEncoding);
        }
    }

    [Fact]
    public async Task Assets_AreKeptForGoodAndSentSmall()
    {
        using var client = new PageClient(service);
        var page = await client.OpenAsync("/");
        foreach (var url in page.QuerySelectorAll("link[rel=stylesheet], link[rel=icon]").Select(link => link.GetAttribute("href")!).Append(page.QuerySelector("script")!.GetAttribute("src")!))
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, url);
            request.Headers.AcceptEncoding.ParseAdd("br");
            using var answer = await client.Http.SendAsync(request);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Contains("immutable", answer.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
            Assert.Equal("br", Assert.Single(answer.Content.Headers.ContentEncoding));
        }
        using var old = await client.Http.GetAsync("/assets/0000000000000000/site.css");
        Assert.Equal(HttpStatusCode.NotFound, old.StatusCode);
    }

    [Fact]
    public async Task Language_FollowsTheBrowserAndLeavesProgramsAlone()
    {
        using var client = new PageClient(service);
        client.Http.DefaultRequestHeaders.AcceptLanguage.ParseAdd("de-AT, en;q=0.5");
        Assert.Equal("de", (await client.OpenAsync("/")).DocumentElement.GetAttribute("lang"));
        Assert.Equal("Anmelden", client.Page.QuerySelector("a[href='/sign-in']")!.TextContent);
        Assert.Equal("Hier ist nichts", (await client.OpenAsync("/nothing-here")).QuerySelector("h1")!.TextContent);
        client.Http.DefaultRequestHeaders.AcceptLanguage.Clear();
        client.Http.DefaultRequestHeaders.AcceptLanguage.ParseAdd("fr, xx-!!, en-GB;q=0.5");
        Assert.Equal("en", (await client.OpenAsync("/")).DocumentElement.GetAttribute("lang"));
        using var api = service.ApiClient(await service.DemoKeyAsync());
        var plain = await api.GetStringAsync("/api/v1/species/acer-palmatum");
        api.DefaultRequestHeaders.AcceptLanguage.ParseAdd("de");
        Assert.Equal(plain, await api.GetStringAsync("/api/v1/species/acer-palmatum"));
    }

    private static IEnumerable<string> Buttons(PageClient client) =>
        client.Page.QuerySelectorAll("button[formaction]").Select(button => button.GetAttribute("formaction")!).GroupBy(action => Guids().Replace(action, "")).Select(same => same.First());

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f-]{27}")]
    private static partial Regex Guids();
}
