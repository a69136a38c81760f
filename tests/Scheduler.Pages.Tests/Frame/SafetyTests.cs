using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Frame;

/// <summary>What has to hold on every page and for every form, also those that are added later.</summary>
public sealed partial class SafetyTests(PagesService service) : IClassFixture<PagesService>
{
    private const string Hostile = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>";

    [Fact]
    public async Task EveryForm_WithoutItsToken_IsRefused()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var forms = service.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(endpoint => endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("POST") == true)
            .Select(endpoint => "/" + endpoint.RoutePattern.RawText!.TrimStart('/'))
            .Where(path => !path.StartsWith("/api/", StringComparison.Ordinal)).Distinct().ToList();
        Assert.True(forms.Count > 12, string.Join(' ', forms));
        foreach (var form in forms)
        {
            var path = Guids().Replace(form, Guid.NewGuid().ToString());
            await client.PostAsync(Words().Replace(path, "work"), [KeyValuePair.Create("form-key", "x"), KeyValuePair.Create("name", "x")]);
            Assert.True(client.Last.StatusCode == HttpStatusCode.BadRequest, $"{form}: {client.Last.StatusCode}");
            Assert.NotNull(client.Page.QuerySelector("h1"));
        }
        await client.OpenAsync("/more");
        Assert.Equal("/more", client.Path);
    }

    [Fact]
    public async Task EveryPage_ShowsHostileTextAsText()
    {
        var key = await service.NewAccountAsync(Hostile);
        using var api = service.ApiClient(key);
        var garden = await AddAsync(api, "gardens", new { name = Hostile, latitude = 52.0, longitude = 5.0 });
        var tree = await AddAsync(api, $"gardens/{garden}/trees", new
        {
            name = Hostile, species = "acer-palmatum", stage = "ramification", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
        });
        await AddAsync(api, $"gardens/{garden}/observations", new { date = PagesService.SpringDay, soilDry = true, notes = Hostile });
        var feed = await AddAsync(api, "feeds", new { name = Hostile });
        await AddAsync(api, "accounts/me/keys", new { label = Hostile });
        var road = await AddAsync(api, "roads", new { kind = "webhook", name = Hostile, url = "https://hooks.example/garden" });
        using var calendar = service.CreateClient();
        calendar.DefaultRequestHeaders.TryAddWithoutValidation("User-Agent", Hostile);
        var url = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{feed}")).GetProperty("url").GetString()!;
        (await calendar.GetAsync(new Uri(url).PathAndQuery)).Dispose();
        using var client = await PageClient.SignedInAsync(service, key);
        var seen = 0;
        foreach (var wanted in EveryPage.All.Where(page => page.SignedIn))
        {
            var path = wanted.Path.Replace("{garden}", garden).Replace("{tree}", tree).Replace("{feed}", feed).Replace("{road}", road);
            var page = await client.OpenAsync(path);
            Assert.True(page.QuerySelectorAll("img, [onerror], script:not([src])").Length == 0, path);
            Assert.DoesNotContain(page.All, element => element.Attributes.Any(attribute => attribute.Name.StartsWith("on", StringComparison.Ordinal)));
            seen += page.Body!.TextContent.Contains(Hostile, StringComparison.Ordinal) || page.QuerySelectorAll("input").Any(field => field.GetAttribute("value") == Hostile) ? 1 : 0;
        }
        Assert.True(seen >= 12, $"The name was seen on {seen} pages only.");
    }

    [Fact]
    public async Task EveryOwnedPage_SendsStrangersToSignIn_AndSaysNothing()
    {
        using var client = new PageClient(service);
        foreach (var wanted in EveryPage.All.Where(page => page.SignedIn && page.Name is not ("missing" or "offline" or "numbers")))
        {
            var path = Guids().Replace(wanted.Path.Replace("{garden}", await service.FirstAsync("gardens")).Replace("{tree}", await service.FirstAsync("trees")).Replace("{feed}", await service.FirstAsync("feeds")).Replace("{road}", Guid.NewGuid().ToString()), "");
            await client.OpenAsync(path);
            Assert.Equal("/sign-in?next=" + Uri.EscapeDataString(path), client.Path);
            Assert.False(client.Last.Headers.Contains("Page-Session"));
        }
    }

    [Fact]
    public async Task EveryCookie_IsOutOfReachOfScriptsAndOtherSites()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        foreach (var (form, values) in new (string, (string, string)[])[] { ("form[action='/more']", [("language", "en"), ("units", "metric")]), ("form[action='/sign-out']", []) })
        {
            await client.OpenAsync("/more");
            var (path, fields) = client.Filled(form, values);
            using var body = new FormUrlEncodedContent(fields);
            using var answer = await client.Http.PostAsync(path, body);
            foreach (var cookie in answer.Headers.GetValues("Set-Cookie").Where(cookie => !cookie.Contains("expires=Thu, 01 Jan 1970", StringComparison.OrdinalIgnoreCase)))
            {
                Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
                Assert.Contains("samesite=lax", cookie, StringComparison.OrdinalIgnoreCase);
            }
        }
    }

    private static async Task<string> AddAsync(HttpClient api, string path, object body)
    {
        using var made = await api.PostAsJsonAsync("/api/v1/" + path, body);
        Assert.True(made.IsSuccessStatusCode, await made.Content.ReadAsStringAsync());
        return (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
    }

    [GeneratedRegex(@"\{\w+:guid\}")]
    private static partial Regex Guids();

    [GeneratedRegex(@"\{\w+\}")]
    private static partial Regex Words();
}
