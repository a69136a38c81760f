using System.Net;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.SignIn;

public sealed class SignInTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task SignIn_WithAKey_LeadsToToday_AndOutAgain()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync(), "");
        Assert.StartsWith("/today", client.Path, StringComparison.Ordinal);
        await client.OpenAsync("/more");
        await client.SendAsync("form[action='/sign-out']");
        Assert.Equal("/", client.Path);
        await client.OpenAsync("/today");
        Assert.Equal("/sign-in?next=%2Ftoday", client.Path);
    }

    [Fact]
    public async Task SignIn_WithAWrongKey_SaysSoBesideTheField_AndKeepsNoCookie()
    {
        using var client = new PageClient(service);
        await client.OpenAsync("/sign-in");
        await client.SendAsync("form[action='/sign-in']", ("key", "key_wrong"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("true", client.Page.QuerySelector("#f-key")!.GetAttribute("aria-invalid"));
        Assert.Contains("f-key-fault", client.Page.QuerySelector("#f-key")!.GetAttribute("aria-describedby"), StringComparison.Ordinal);
        Assert.Equal("#f-key", client.Page.QuerySelector(".faults a")!.GetAttribute("href"));
        Assert.DoesNotContain("Set-Cookie", client.Last.Headers.Select(header => header.Key));
    }

    [Fact]
    public async Task SignIn_IsSentBackOnlyToAddressesOfThisService()
    {
        foreach (var (next, led) in new[]
        {
            ("/trees?sort=name", "/trees?sort=name"), ("https://evil.example/", "/today"), ("//evil.example/", "/today"), ("/\\evil.example/", "/today"),
            ("javascript:alert(1)", "/today"), ("", "/today")
        })
        {
            Assert.Equal(led, Scheduler.Service.Pages.SignIn.SignInRoutes.Local(next));
        }
        using var client = new PageClient(service);
        await client.OpenAsync("/sign-in?next=//evil.example/");
        await client.SendAsync("form[action='/sign-in']", ("key", await service.DemoKeyAsync()));
        Assert.StartsWith("/today", client.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cookies_AreOutOfReachOfScriptsAndOtherSites()
    {
        using var client = new PageClient(service);
        await client.OpenAsync("/sign-in");
        var (path, fields) = client.Filled("form[action='/sign-in']", [("key", await service.DemoKeyAsync())]);
        using var body = new FormUrlEncodedContent(fields);
        using var answer = await client.Http.PostAsync(path, body);
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), cookie => cookie.StartsWith("signed-in=", StringComparison.Ordinal)).ToLowerInvariant();
        Assert.Contains("httponly", cookie, StringComparison.Ordinal);
        Assert.Contains("samesite=lax", cookie, StringComparison.Ordinal);
        Assert.Contains("path=/", cookie, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cookies_OfAServiceThatOthersCanReach_AreSecureAndBoundToTheHost()
    {
        await using var reachable = new PagesService().With("PublicUrl", "https://bonsai.example");
        using var client = new PageClient(reachable);
        await client.OpenAsync("https://bonsai.example/sign-in");
        var form = Assert.Single(client.Last.Headers.GetValues("Set-Cookie"));
        Assert.StartsWith("__Host-form=", form, StringComparison.Ordinal);
        Assert.Contains("secure", form, StringComparison.OrdinalIgnoreCase);
        var (path, fields) = client.Filled("form[action='/sign-in']", [("key", await reachable.DemoKeyAsync())]);
        using var body = new FormUrlEncodedContent(fields);
        using var answer = await client.Http.PostAsync("https://bonsai.example" + path, body);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), cookie => cookie.StartsWith("__Host-signed-in=", StringComparison.Ordinal));
        Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Cookie_OfARevokedKey_IsWorthNothing()
    {
        var key = await service.DemoKeyAsync();
        using var client = await PageClient.SignedInAsync(service, key);
        using var api = service.ApiClient(key);
        var mine = (await System.Net.Http.Json.HttpClientJsonExtensions.GetFromJsonAsync<System.Text.Json.JsonElement>(api, "/api/v1/accounts/me/keys?limit=200"))
            .GetProperty("items").EnumerateArray().Single(item => item.GetProperty("current").GetBoolean()).GetProperty("id").GetString();
        using var revoked = await api.DeleteAsync($"/api/v1/accounts/me/keys/{mine}");
        Assert.Equal(HttpStatusCode.NoContent, revoked.StatusCode);
        await client.OpenAsync("/today");
        Assert.StartsWith("/sign-in", client.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Api_TakesNoCookie()
    {
        using var client = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        using var answer = await client.Http.GetAsync("/api/v1/gardens");
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task Page_TakesNoAccessKeyInAHeader()
    {
        using var api = service.ApiClient(await service.DemoKeyAsync());
        using var answer = await api.GetAsync("/today");
        Assert.Contains("/sign-in", answer.RequestMessage!.RequestUri!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NewAccount_ShowsItsKeyUntilItIsPutAway()
    {
        using var client = new PageClient(service);
        await client.OpenAsync("/account/new");
        var (path, fields) = client.Filled("form[action='/account/new']", [("name", "Invented Owner")]);
        await client.PostAsync(path, fields);
        Assert.Equal("/account/key", client.Path);
        var key = client.Page.QuerySelector("#new-key")!.GetAttribute("value")!;
        using var api = service.ApiClient(key);
        Assert.Equal(HttpStatusCode.OK, (await api.GetAsync("/api/v1/accounts/me")).StatusCode);
        await client.OpenAsync("/account/key");
        Assert.Equal(key, client.Page.QuerySelector("#new-key")!.GetAttribute("value"));
        await client.SendAsync("form[action='/account/key']");
        await client.OpenAsync("/account/key");
        Assert.NotEqual("/account/key", client.Path);
    }

    [Fact]
    public async Task NewAccount_WithoutAName_KeepsWhatWasTyped()
    {
        await using var invited = new PagesService().With("Accounts:SignUp", "invited").With("Accounts:Invitation", "come in");
        using var client = new PageClient(invited);
        await client.OpenAsync("/account/new");
        await client.SendAsync("form[action='/account/new']", ("invitation", "come <in>"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("come <in>", client.Page.QuerySelector("#f-invitation")!.GetAttribute("value"));
        Assert.Equal("true", client.Page.QuerySelector("#f-name")!.GetAttribute("aria-invalid"));
        await client.SendAsync("form[action='/account/new']", ("name", "Invented Owner"));
        Assert.Equal(HttpStatusCode.Forbidden, client.Last.StatusCode);
        Assert.NotNull(client.Page.QuerySelector(".faults p"));
        await client.SendAsync("form[action='/account/new']", ("name", "Invented Owner"), ("invitation", "come in"));
        Assert.Equal("/account/key", client.Path);
    }
}
