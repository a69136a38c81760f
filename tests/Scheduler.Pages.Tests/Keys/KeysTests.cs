using System.Net;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Keys;

public sealed class KeysTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Key_IsMade_ShownOnce_AndRevoked()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync(), "/keys");
        Assert.Single(client.Page.QuerySelectorAll(".card-rows .card strong"));
        var (path, fields) = client.Filled("form[action='/keys']", [("label", "<i>phone")]);
        await client.PostAsync(path, fields);
        var shown = client.Page.QuerySelector("#new-key")!.GetAttribute("value")!;
        using var api = service.ApiClient(shown);
        Assert.Equal(HttpStatusCode.OK, (await api.GetAsync("/api/v1/accounts/me")).StatusCode);
        await client.PostAsync(path, fields);
        Assert.Equal(shown, client.Page.QuerySelector("#new-key")!.GetAttribute("value"));
        await client.OpenAsync("/keys");
        Assert.Equal(2, client.Page.QuerySelectorAll(".card-rows .card").Length);
        Assert.DoesNotContain(shown, client.Page.Source.Text, StringComparison.Ordinal);
        var revoke = client.Page.QuerySelectorAll(".card-rows .card").Single(card => card.TextContent.Contains("<i>phone", StringComparison.Ordinal)).QuerySelector("a")!.GetAttribute("href")!;
        await client.OpenAsync(revoke);
        Assert.Equal(HttpStatusCode.OK, (await api.GetAsync("/api/v1/accounts/me")).StatusCode);
        await client.SendAsync($"form[action='{revoke}']");
        Assert.Equal(HttpStatusCode.Unauthorized, (await api.GetAsync("/api/v1/accounts/me")).StatusCode);
    }

    [Fact]
    public async Task LastKey_IsNotRevoked_AndTheOwnOneSignsOut()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync(), "/keys");
        var own = client.Page.QuerySelector(".card-rows a")!.GetAttribute("href")!;
        await client.OpenAsync(own);
        await client.SendAsync($"form[action='{own}']");
        Assert.Equal(HttpStatusCode.Conflict, client.Last.StatusCode);
        Assert.NotNull(client.Page.QuerySelector(".faults"));
        await client.OpenAsync("/keys");
        await client.SendAsync("form[action='/keys']", ("label", "other"));
        await client.OpenAsync(own);
        await client.SendAsync($"form[action='{own}']");
        Assert.Equal("/", client.Path);
        await client.OpenAsync("/keys");
        Assert.StartsWith("/sign-in", client.Path, StringComparison.Ordinal);
    }
}
