using System.Buffers.Text;
using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Reminders;

public sealed class RemindersTests : IClassFixture<RemindersTests.Service>
{
    private readonly Service _service;

    public RemindersTests(Service service) => _service = service;

    [Fact]
    public async Task Nothing_IsThereUntilItIsSetUp()
    {
        using var client = await PageClient.SignedInAsync(_service, await _service.NewAccountAsync(), "/more");
        Assert.NotNull(client.Page.QuerySelector("a[href='/reminders']"));
        await client.OpenAsync("/reminders");
        Assert.NotNull(client.Page.QuerySelector(".empty"));
        Assert.Empty(client.Page.QuerySelectorAll(".card-rows"));
        // The form of this device appears by script alone; without one a sentence says so.
        Assert.True(client.Page.QuerySelector("#push-form")!.HasAttribute("hidden"));
        Assert.NotNull(client.Page.QuerySelector("noscript"));
    }

    [Fact]
    public async Task Webhook_ShowsItsSecretOnce_AndIsOnWhenATestArrives()
    {
        var answer = StatusCodes.Status500InternalServerError;
        var taken = 0;
        await using var receiver = await ReceiverAsync(() => { taken++; return answer; });
        using var client = await PageClient.SignedInAsync(_service, await _service.NewAccountAsync(), "/reminders/new/webhook");
        var (path, fields) = client.Filled("form[action='/reminders/new/webhook']", [("name", "<b>own"), ("url", receiver.Urls.First() + "/hook")]);
        await client.PostAsync(path, fields);
        var secret = client.Page.QuerySelector("#secret")!.GetAttribute("value")!;
        Assert.StartsWith("whsec_", secret, StringComparison.Ordinal);
        await client.PostAsync(path, fields);
        Assert.Equal(secret, client.Page.QuerySelector("#secret")!.GetAttribute("value"));
        await client.OpenAsync("/reminders");
        var row = Assert.Single(client.Page.QuerySelectorAll(".card-rows .card"));
        Assert.Contains("<b>own", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("not confirmed yet", row.TextContent, StringComparison.Ordinal);
        var road = row.QuerySelector("a")!.GetAttribute("href")!;
        await client.OpenAsync(road);
        Assert.DoesNotContain(secret, client.Page.Source.Text, StringComparison.Ordinal);
        await client.SendAsync($"form[action='{road}/test']");
        Assert.Equal(1, taken);
        Assert.Contains("500", client.Page.QuerySelector(".trouble")!.TextContent, StringComparison.Ordinal);
        // In the language of the page, whichever it was when it went wrong.
        await client.OpenAsync("/more");
        await client.SendAsync("form[action='/more']", ("language", "de"));
        await client.OpenAsync(road);
        Assert.Contains("Die Gegenstelle antwortete mit 500.", client.Page.QuerySelector(".trouble")!.TextContent, StringComparison.Ordinal);
        Assert.Null(client.Page.QuerySelector(".trouble [lang=en]"));
        await client.OpenAsync("/more");
        await client.SendAsync("form[action='/more']", ("language", "en"));
        await client.OpenAsync(road);
        answer = StatusCodes.Status204NoContent;
        await client.SendAsync($"form[action='{road}/test']");
        Assert.EndsWith("?did=tested", client.Path, StringComparison.Ordinal);
        Assert.Equal("on", client.Page.QuerySelector("#state")!.TextContent);
        Assert.Null(client.Page.QuerySelector(".trouble"));

        await client.SendAsync($"form[action='{road}/test']", [], $"button[formaction='{road}/off']");
        Assert.Equal("paused", client.Page.QuerySelector("#state")!.TextContent);
        await client.SendAsync($"form[action='{road}/test']", [], $"button[formaction='{road}/on']");
        Assert.Equal("on", client.Page.QuerySelector("#state")!.TextContent);

        await client.OpenAsync(road + "/rotate");
        await client.SendAsync($"form[action='{road}/rotate']");
        Assert.NotEqual(secret, client.Page.QuerySelector("#secret")!.GetAttribute("value"));
        await client.OpenAsync(road + "/delete");
        Assert.NotNull(client.Page.QuerySelector("h1")!.TextContent);
        await client.SendAsync($"form[action='{road}/delete']");
        Assert.Equal("/reminders?did=deleted", client.Path);
        await client.OpenAsync(road);
        Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
    }

    [Fact]
    public async Task Mail_SaysWhatWentWrong_AndKeepsWhatWasChosen()
    {
        var key = await _service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(_service, key, "/reminders/new/email");
        await client.SendAsync("form[action='/reminders/new/email']", ("address", "nobody"), ("quietHours.from", "07:00"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("nobody", client.Page.QuerySelector("#f-address")!.GetAttribute("value"));
        Assert.Equal(2, client.Page.QuerySelectorAll(".faults li").Length);
        Assert.All(client.Page.QuerySelectorAll(".faults li a"), link => Assert.NotNull(client.Page.QuerySelector(link.GetAttribute("href")!)));

        // Its mail server is not there: the road is kept, and says why no mail came.
        await client.OpenAsync("/reminders/new/email");
        await client.SendAsync(
            "form[action='/reminders/new/email']", ("address", "me@garden.example"), ("digest.every", "week"), ("digest.at", "06:30"), ("digest.day", "thursday"), ("quiet", ""));
        Assert.EndsWith("?did=made", client.Path, StringComparison.Ordinal);
        Assert.NotNull(client.Page.QuerySelector(".trouble"));
        using var api = _service.ApiClient(key);
        var road = (await api.GetFromJsonAsync<JsonElement>("/api/v1/roads")).GetProperty("items")[0];
        Assert.Equal(("email", "unconfirmed", "me@garden.example"), (road.GetProperty("kind").GetString(), road.GetProperty("state").GetString(), road.GetProperty("address").GetString()));
        Assert.Equal("""{"every":"week","at":"06:30","day":"thursday"}""", road.GetProperty("digest").GetRawText());
        Assert.Equal(JsonValueKind.Null, road.GetProperty("quietHours").ValueKind);
        Assert.Equal(5, road.GetProperty("notices").GetArrayLength());

        var id = road.GetProperty("id").GetString();
        await client.OpenAsync($"/reminders/{id}/edit");
        Assert.NotNull(client.Page.QuerySelector("input[name='digest.every'][value=week][checked]"));
        await client.SendAsync($"form[action='/reminders/{id}/edit']", ("quiet", "on"), ("quietHours.from", "22:00"), ("quietHours.to", "06:00"), ("notices", "protection"));
        road = await api.GetFromJsonAsync<JsonElement>($"/api/v1/roads/{id}");
        Assert.Equal("""{"from":"22:00","to":"06:00"}""", road.GetProperty("quietHours").GetRawText());
        Assert.Equal("""["protection"]""", road.GetProperty("notices").GetRawText());
        Assert.Equal("thursday", road.GetProperty("digest").GetProperty("day").GetString());
    }

    [Fact]
    public async Task Mail_WithoutAMailServer_IsNotOffered()
    {
        await using var service = new PagesService();
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync(), "/reminders");
        Assert.Null(client.Page.QuerySelector("a[href='/reminders/new/email']"));
        Assert.Contains("Mail:Host", client.Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Subscription_OfTheSameBrowser_IsOneRoad()
    {
        await using var receiver = await ReceiverAsync(() => StatusCodes.Status201Created);
        var key = await _service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(_service, key, "/reminders");
        var subscription = Subscription(receiver.Urls.First() + "/end");
        await client.SendAsync("form[action='/reminders/push']", [.. subscription, ("name", "shed")]);
        Assert.EndsWith("?did=subscribed", client.Path, StringComparison.Ordinal);
        Assert.Equal("on", client.Page.QuerySelector("#state")!.TextContent);
        var road = client.Path.Split('?')[0];
        await client.SendAsync($"form[action='{road}/test']", [], $"button[formaction='{road}/off']");
        await client.OpenAsync("/reminders");
        await client.SendAsync("form[action='/reminders/push']", [.. subscription, ("name", "again")]);
        Assert.Equal(road + "?did=known", client.Path);
        Assert.Equal("on", client.Page.QuerySelector("#state")!.TextContent);
        await client.SendAsync($"form[action='{road}/test']");
        Assert.EndsWith("?did=tested", client.Path, StringComparison.Ordinal);
        using var api = _service.ApiClient(key);
        Assert.Equal(1, (await api.GetFromJsonAsync<JsonElement>("/api/v1/roads")).GetProperty("items").GetArrayLength());
        await client.OpenAsync("/reminders");
        Assert.Equal(End(subscription), client.Page.QuerySelector("[data-end]")!.GetAttribute("data-end"));
    }

    /// <summary>The browser replaced its subscription: the road and what its owner chose stay, the old end is dropped.</summary>
    [Fact]
    public async Task Subscription_ThatMoved_KeepsItsRoadAsItIs()
    {
        await using var receiver = await ReceiverAsync(() => StatusCodes.Status201Created);
        var key = await _service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(_service, key, "/reminders");
        var (first, second, third) = (Subscription(receiver.Urls.First() + "/first"), Subscription(receiver.Urls.First() + "/second"), Subscription(receiver.Urls.First() + "/third"));
        await client.SendAsync("form[action='/reminders/push']", [.. first, ("name", "shed")]);
        var road = client.Path.Split('?')[0];
        await client.OpenAsync("/reminders");
        Assert.Equal(HttpStatusCode.OK, await MovedAsync(client, first, second));
        await client.OpenAsync("/reminders");
        Assert.Equal([End(second)], client.Page.QuerySelectorAll("[data-end]").Select(card => card.GetAttribute("data-end")));
        await client.OpenAsync(road);
        Assert.Equal(("shed", "on"), (client.Page.QuerySelector("h1")!.TextContent, client.Page.QuerySelector("#state")!.TextContent));
        // The old one is known no more, and a stranger's never was.
        Assert.Equal(HttpStatusCode.NotFound, await MovedAsync(client, first, third));
        using var stranger = await PageClient.SignedInAsync(_service, await _service.NewAccountAsync(), "/reminders");
        Assert.Equal(HttpStatusCode.NotFound, await MovedAsync(stranger, second, third));
        Assert.NotEqual(HttpStatusCode.OK, await MovedAsync(client, second, [("endpoint", "none"), ("p256dh", ""), ("auth", "")]));

        await client.SendAsync($"form[action='{road}/test']", [], $"button[formaction='{road}/off']");
        Assert.Equal(HttpStatusCode.OK, await MovedAsync(client, second, third));
        await client.OpenAsync(road);
        Assert.Equal("paused", client.Page.QuerySelector("#state")!.TextContent);
        using var api = _service.ApiClient(key);
        Assert.Equal(1, (await api.GetFromJsonAsync<JsonElement>("/api/v1/roads")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task List_IsSearchedAndOrdered()
    {
        var key = await _service.NewAccountAsync();
        using var api = _service.ApiClient(key);
        foreach (var name in new[] { "zelkova", "alder" })
            Assert.Equal(HttpStatusCode.Created, (await api.PostAsJsonAsync("/api/v1/roads", new { kind = "webhook", name, url = $"https://{name}.example/hook" })).StatusCode);
        using var client = await PageClient.SignedInAsync(_service, key, "/reminders");
        Assert.Equal(["alder", "zelkova"], client.Page.QuerySelectorAll(".card-rows h2").Select(title => title.TextContent));
        await client.OpenAsync("/reminders?q=zel&kind=webhook&sort=trouble");
        Assert.Equal("zelkova", Assert.Single(client.Page.QuerySelectorAll(".card-rows h2")).TextContent);
        await client.OpenAsync("/reminders?kind=email");
        Assert.Empty(client.Page.QuerySelectorAll(".card-rows .card"));
        Assert.NotNull(client.Page.QuerySelector(".empty a[href='/reminders']"));
    }

    [Fact]
    public async Task Road_OfAnotherOwner_IsNotThere()
    {
        using var api = _service.ApiClient(await _service.NewAccountAsync());
        using var made = await api.PostAsJsonAsync("/api/v1/roads", new { kind = "webhook", url = "https://hooks.example/garden" });
        var id = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString();
        using var client = await PageClient.SignedInAsync(_service, await _service.NewAccountAsync());
        foreach (var path in new[] { "", "/edit", "/rotate", "/delete" })
        {
            await client.OpenAsync($"/reminders/{id}{path}");
            Assert.Equal(HttpStatusCode.NotFound, client.Last.StatusCode);
        }
    }

    /// <summary>Sent as the worker does, with a token that it asks for.</summary>
    private static async Task<HttpStatusCode> MovedAsync(PageClient client, (string Name, string Value)[] old, (string Name, string Value)[] moved)
    {
        var word = await client.Http.GetFromJsonAsync<JsonElement>("/offline/token");
        using var body = new FormUrlEncodedContent(
        [
            KeyValuePair.Create("old", old[0].Value), .. moved.Select(field => KeyValuePair.Create(field.Name, field.Value)),
            KeyValuePair.Create(word.GetProperty("field").GetString()!, word.GetProperty("token").GetString()!)
        ]);
        using var answer = await client.Http.PostAsync("/reminders/push/moved", body);
        return answer.StatusCode;
    }

    /// <summary>The print by which a browser knows its own card.</summary>
    internal static string End((string Name, string Value)[] subscription) => Convert.ToHexStringLower(SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(subscription[0].Value)));

    /// <summary>What a browser's subscription gives: an endpoint and keys of its own.</summary>
    internal static (string Name, string Value)[] Subscription(string endpoint)
    {
        using var key = ECDiffieHellman.Create(ECCurve.NamedCurves.nistP256);
        var point = key.ExportParameters(false).Q;
        return
        [
            ("endpoint", endpoint), ("p256dh", Base64Url.EncodeToString([4, .. point.X!, .. point.Y!])), ("auth", Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(16)))
        ];
    }

    private static async Task<WebApplication> ReceiverAsync(Func<int> status)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        var app = builder.Build();
        app.Run(context =>
        {
            context.Response.StatusCode = status();
            return Task.CompletedTask;
        });
        await app.StartAsync();
        return app;
    }

    /// <summary>May call this machine, and has a mail server that is not there.</summary>
    public sealed class Service : PagesService
    {
        public Service() => With("Roads:AllowLoopback", "true").With("Mail:Host", "127.0.0.1").With("Mail:Port", "1").With("Mail:Security", "none").With("Mail:From", "trees@garden.example");
    }
}
