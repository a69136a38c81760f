using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.More;

/// <summary>Units and language belong to the account, not to one browser.</summary>
public sealed class MoreTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Units_AndLanguage_ComeAlongToAnotherDevice()
    {
        var key = await service.NewAccountAsync();
        using var phone = await PageClient.SignedInAsync(service, key);
        await phone.SendAsync("form[action='/more']", ("units", "imperial"), ("language", "de"));
        using var tablet = await PageClient.SignedInAsync(service, key);
        Assert.Equal("de", tablet.Page.QuerySelector("html")!.GetAttribute("lang"));
        Assert.Equal("imperial", tablet.Page.QuerySelector("select[name=units] option[selected]")!.GetAttribute("value"));
        using var api = service.ApiClient(key);
        var me = await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me");
        Assert.Equal(("imperial", "de"), (me.GetProperty("units").GetString(), me.GetProperty("language").GetString()));
        var all = await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me/export");
        Assert.Equal("imperial", all.GetProperty("units").GetString());
        // Somebody else who signs in on the phone has choices of their own.
        await phone.SendAsync("form[action='/sign-out']");
        await phone.OpenAsync("/sign-in");
        var other = await service.NewAccountAsync();
        using var otherApi = service.ApiClient(other);
        using var changed = await otherApi.PatchAsJsonAsync("/api/v1/accounts/me", new { units = "metric" });
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        await phone.SendAsync("form[action='/sign-in']", ("key", other));
        await phone.OpenAsync("/more");
        Assert.Equal("metric", phone.Page.QuerySelector("select[name=units] option[selected]")!.GetAttribute("value"));
    }

    [Fact]
    public async Task UnknownUnits_AreRefused()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync());
        await client.SendAsync("form[action='/more']", ("units", "furlongs"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("#f-units", client.Page.QuerySelector(".faults a")!.GetAttribute("href"));
    }

    [Fact]
    public async Task Imperial_IsWhatEveryPageSpeaks()
    {
        var key = await service.DemoKeyAsync();
        using var api = service.ApiClient(key);
        var gardens = (await api.GetFromJsonAsync<JsonElement>("/api/v1/gardens")).GetProperty("items").EnumerateArray().Select(garden => garden.GetProperty("id").GetString()!).ToList();
        var trees = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{gardens[0]}/trees")).GetProperty("items").EnumerateArray().Select(tree => tree.GetProperty("id").GetString()!).ToList();
        using var client = await PageClient.SignedInAsync(service, key);
        await client.SendAsync("form[action='/more']", ("units", "imperial"));
        foreach (var path in new[] { "/today", "/season", "/plan?show=all", $"/gardens/{gardens[0]}", $"/gardens/{gardens[0]}/bench", $"/trees/{trees[0]}" })
        {
            await client.OpenAsync(path);
            // Citations stay as they were printed.
            foreach (var cited in client.Page.QuerySelectorAll("[aria-labelledby=figures] .why").ToList())
                cited.Remove();
            var text = client.Page.QuerySelector("main")!.TextContent;
            if (!path.StartsWith("/trees", StringComparison.Ordinal))
                Assert.Contains("°F", text, StringComparison.Ordinal);
            Assert.DoesNotMatch(@"(?<!(degree-days|Heat) above -?\d+(\.\d+)?) °?C\b", text);
            Assert.DoesNotMatch(@"evaporation \d+(\.\d+)? mm", text);
        }
        // The coming night of 6 C of the metric page.
        await client.OpenAsync("/today");
        Assert.Matches(@"about 4\d °F", client.Page.QuerySelector(".lead")!.TextContent);
    }
}
