using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.SignIn;

public sealed class OidcTests : IAsyncLifetime
{
    private InventedProvider _provider = null!;
    private PagesService _service = null!;

    public async Task InitializeAsync()
    {
        _provider = await InventedProvider.StartAsync();
        _service = Service();
    }

    public async Task DisposeAsync()
    {
        await _service.DisposeAsync();
        await _provider.DisposeAsync();
    }

    [Fact]
    public async Task NewIdentity_OpensAnAccount_AndComesBackToTheSame()
    {
        using var client = new PageClient(_service);
        await client.OpenAsync("/sign-in");
        await ComeAsync(client, client.Page.QuerySelector("a[href^='/sign-in/oidc']")!.GetAttribute("href")!);
        Assert.Equal("Invented <b>Person", client.Page.QuerySelector("#f-name")!.GetAttribute("value"));
        var (path, fields) = client.Filled("form[action='/sign-in/oidc/new']", []);
        await client.PostAsync(path, fields);
        Assert.Equal("/account/key", client.Path);
        var key = client.Page.QuerySelector("#new-key")!.GetAttribute("value")!;
        using var api = _service.ApiClient(key);
        var me = (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me")).GetProperty("id").GetString();

        using var again = new PageClient(_service);
        await ComeAsync(again, "/sign-in/oidc?next=/keys");
        Assert.Equal("/keys", again.Path);
        // The first key, and one for each of the two sign-ins.
        Assert.Equal(3, again.Page.QuerySelectorAll(".card-rows .card").Length);
        Assert.Equal(me, (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me")).GetProperty("id").GetString());
        await again.OpenAsync("/more");
        await again.SendAsync("form[action='/sign-out']");
        Assert.Equal(2, (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me/keys")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task SignIn_IsRevokedLikeAKey()
    {
        var key = await _service.NewAccountAsync();
        using var owner = await LinkedAsync(key);
        using var client = new PageClient(_service);
        await ComeAsync(client, "/sign-in/oidc?next=/more");
        Assert.Equal("/more", client.Path);
        using var api = _service.ApiClient(key);
        var other = (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me/keys")).GetProperty("items").EnumerateArray().Single(one => !one.GetProperty("current").GetBoolean()).GetProperty("id").GetString();
        using var revoked = await api.DeleteAsync($"/api/v1/accounts/me/keys/{other}");
        Assert.Equal(HttpStatusCode.NoContent, revoked.StatusCode);
        await client.OpenAsync("/more");
        Assert.StartsWith("/sign-in", client.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Identity_IsLinkedOnlyAfterAForm_TakenAway_AndOpensOneAccount()
    {
        var key = await _service.NewAccountAsync();
        using var owner = await LinkedAsync(key);
        using var other = await PageClient.SignedInAsync(_service, await _service.NewAccountAsync(), "/keys");
        await ComeAsync(other, "/keys/sign-ins/link");
        await other.SendAsync("form[action='/keys/sign-ins/new']");
        Assert.Equal(HttpStatusCode.Conflict, other.Last.StatusCode);

        using var came = new PageClient(_service);
        await ComeAsync(came, "/sign-in/oidc?next=/more");
        await owner.OpenAsync("/keys");
        var remove = owner.Page.QuerySelector("a[href*='/sign-ins/'][href$='/remove']")!.GetAttribute("href")!;
        await owner.OpenAsync(remove);
        await owner.SendAsync($"form[action='{remove}']");
        Assert.Equal("/keys?did=unlinked", owner.Path);
        await came.OpenAsync("/more");
        Assert.StartsWith("/sign-in", came.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NewIdentity_IsBoundByTheRuleOfSignUp()
    {
        await using var invited = Service().With("Accounts:SignUp", "invited").With("Accounts:Invitation", "come in");
        using var client = new PageClient(invited);
        await ComeAsync(client, "/sign-in/oidc");
        await client.SendAsync("form[action='/sign-in/oidc/new']", ("invitation", "wrong"));
        Assert.Equal(HttpStatusCode.Forbidden, client.Last.StatusCode);
        await client.SendAsync("form[action='/sign-in/oidc/new']", ("invitation", "come in"));
        Assert.Equal("/account/key", client.Path);

        await using var closed = Service().With("Accounts:SignUp", "closed");
        using var stranger = new PageClient(closed);
        await ComeAsync(stranger, "/sign-in/oidc");
        Assert.Null(stranger.Page.QuerySelector("form[action='/sign-in/oidc/new']"));
    }

    [Fact]
    public async Task ForgedToken_AndForeignAnswer_AreRefused()
    {
        _provider.ForgesTokens = true;
        using var client = new PageClient(_service);
        await ComeAsync(client, "/sign-in/oidc");
        Assert.Equal("/sign-in?oidc=failed", client.Path);
        _provider.ForgesTokens = false;
        // An answer that this browser never asked for.
        using var victim = new PageClient(_service);
        await victim.OpenAsync(await AnswerAsync(client, "/sign-in/oidc"));
        Assert.Equal("/sign-in?oidc=failed", victim.Path);
    }

    private async Task<PageClient> LinkedAsync(string key)
    {
        var owner = await PageClient.SignedInAsync(_service, key, "/keys");
        await ComeAsync(owner, owner.Page.QuerySelector("a[href='/keys/sign-ins/link']")!.GetAttribute("href")!);
        await owner.SendAsync("form[action='/keys/sign-ins/new']");
        Assert.Equal("/keys?did=linked", owner.Path);
        return owner;
    }

    private PagesService Service() => new PagesService()
        .With("SignIn:Oidc:Authority", _provider.Issuer).With("SignIn:Oidc:ClientId", InventedProvider.ClientId).With("SignIn:Oidc:ClientSecret", InventedProvider.ClientSecret);

    /// <summary>From the service to the provider and back.</summary>
    private static async Task ComeAsync(PageClient client, string path) => await client.OpenAsync(await AnswerAsync(client, path));

    private static async Task<string> AnswerAsync(PageClient client, string path)
    {
        using var asked = await client.Http.GetAsync(path);
        Assert.Equal(HttpStatusCode.Found, asked.StatusCode);
        using var browser = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false });
        using var answered = await browser.GetAsync(asked.Headers.Location);
        Assert.Equal(HttpStatusCode.Found, answered.StatusCode);
        return answered.Headers.Location!.PathAndQuery;
    }
}
