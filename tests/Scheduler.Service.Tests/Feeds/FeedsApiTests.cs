using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;

namespace Scheduler.Service.Tests.Feeds;

public sealed class FeedsApiTests : IAsyncLifetime
{
    private FeedHost _host = null!;

    public Task InitializeAsync()
    {
        _host = FeedHost.Start();
        return Task.CompletedTask;
    }

    public async Task DisposeAsync() => await _host.DisposeAsync();

    [Fact]
    public async Task Post_Feed_ServesAtItsAddressAtOnce()
    {
        using var answer = await SendAsync(HttpMethod.Post, "/api/v1/feeds",
            $$"""{"name":"All trees","gardenIds":["{{FeedBench.Garden}}"],"techniques":["tip-pinch"],"content":"windows","reminders":["P1D","PT24H","PT15H"]}""");
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var made = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.EndsWith($"/api/v1/feeds/{made.GetProperty("id").GetGuid()}", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
        Assert.Equal(["P1D", "PT24H", "PT15H"], made.GetProperty("reminders").EnumerateArray().Select(item => item.GetString()));
        var url = made.GetProperty("url").GetString()!;
        Assert.Matches("^http://127.0.0.1:[0-9]+/api/v1/calendars/[A-Za-z0-9_-]{43}\\.ics$", url);
        Assert.Equal(url.Replace("http://", "webcal://", StringComparison.Ordinal), made.GetProperty("webcalUrl").GetString());
        var shown = await _host.Owner.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{made.GetProperty("id")}");
        Assert.Equal(url, shown.GetProperty("url").GetString());
        Assert.Equal(JsonValueKind.Null, shown.GetProperty("lastFetchedAt").ValueKind);
        Assert.Contains("X-WR-CALNAME:All trees\r\n", await _host.Anybody.GetStringAsync(url), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_NameAlone_CoversAllWithAMorningReminder()
    {
        var made = await MadeAsync("""{"name":"All"}""");
        Assert.Equal(JsonValueKind.Null, made.GetProperty("gardenIds").ValueKind);
        Assert.Equal(JsonValueKind.Null, made.GetProperty("techniques").ValueKind);
        Assert.Equal("windows", made.GetProperty("content").GetString());
        Assert.Equal(["PT15H"], made.GetProperty("reminders").EnumerateArray().Select(item => item.GetString()));
    }

    [Fact]
    public async Task Post_EverythingWrong_ListsAllAndMakesNothing()
    {
        using var answer = await SendAsync(HttpMethod.Post, "/api/v1/feeds",
            $$"""{"name":"","gardenIds":["{{Guid.NewGuid()}}","x"],"techniques":["tip-pinches"],"content":"plans","reminders":["P1H","P31D"],"color":"red"}""");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("errors");
        Assert.Equal(
            ["color", "content", "gardenIds[0]", "gardenIds[1]", "name", "reminders[0]", "reminders[1]", "techniques[0]"],
            errors.EnumerateObject().Select(error => error.Name).Order(StringComparer.Ordinal));
        Assert.Contains("windows, plan, both", errors.GetProperty("content")[0].GetString(), StringComparison.Ordinal);
        Assert.Contains("tip-pinch", errors.GetProperty("techniques[0]")[0].GetString(), StringComparison.Ordinal);
        Assert.Empty(await _host.Bench.Store.ListAsync(FeedBench.Account, null, 10));
    }

    [Theory]
    [InlineData("""{"content":"everything"}""", "content")]
    [InlineData("""{"content":null}""", "content")]
    [InlineData("""{"name":null}""", "name")]
    [InlineData("""{"gardenIds":[]}""", "gardenIds")]
    [InlineData("""{"techniques":"tip-pinch"}""", "techniques")]
    [InlineData("""{"reminders":["P1D","P2D","P3D","P4D","P5D","P6D"]}""", "reminders")]
    [InlineData("""{"reminders":[1]}""", "reminders[0]")]
    [InlineData("""{"gathered":"garden"}""", "gathered")]
    [InlineData("""{"gathered":null}""", "gathered")]
    [InlineData("""{"span":"closing"}""", "span")]
    [InlineData("""{"at":"7:30"}""", "at")]
    [InlineData("""{"at":"24:00"}""", "at")]
    [InlineData("""{"at":730}""", "at")]
    public async Task Patch_Wrong_ChangesNothing(string change, string field)
    {
        var made = await MadeAsync("""{"name":"All","reminders":["P1D"]}""");
        using var answer = await SendAsync(HttpMethod.Patch, $"/api/v1/feeds/{made.GetProperty("id")}", change);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("errors");
        Assert.Equal(field, Assert.Single(errors.EnumerateObject()).Name);
        Assert.Equal(made.GetRawText(), (await _host.Owner.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{made.GetProperty("id")}")).GetRawText());
    }

    [Fact]
    public async Task Patch_Fields_ChangeAloneAndTheFeedFollows()
    {
        await _host.Bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple", FeedSamples.Pinch()));
        var made = await MadeAsync("""{"name":"All","techniques":["repotting"],"reminders":["P1D"]}""");
        var url = made.GetProperty("url").GetString();
        Assert.DoesNotContain("BEGIN:VEVENT", await _host.Anybody.GetStringAsync(url), StringComparison.Ordinal);
        using var answer = await SendAsync(HttpMethod.Patch, $"/api/v1/feeds/{made.GetProperty("id")}", """{"techniques":null,"reminders":[]}""");
        var changed = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Equal(("All", url), (changed.GetProperty("name").GetString(), changed.GetProperty("url").GetString()));
        var text = await _host.Anybody.GetStringAsync(url);
        Assert.Contains("BEGIN:VEVENT", text, StringComparison.Ordinal);
        Assert.DoesNotContain("BEGIN:VALARM", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_WithATime_RingsAtThatTimeAndPatchTakesItBack()
    {
        var plain = await MadeAsync("""{"name":"Plain"}""");
        Assert.Equal(("each", "window", null), Variant(plain));
        var made = await MadeAsync("""{"name":"Mornings","gathered":"technique","span":"opening","at":"07:30"}""");
        Assert.Equal(("technique", "opening", "07:30"), Variant(made));
        Assert.Equal(["PT0S"], made.GetProperty("reminders").EnumerateArray().Select(item => item.GetString()));
        using var answer = await SendAsync(HttpMethod.Patch, $"/api/v1/feeds/{made.GetProperty("id")}", """{"at":null,"span":"window"}""");
        Assert.Equal(("technique", "window", null), Variant(await answer.Content.ReadFromJsonAsync<JsonElement>()));
        Assert.Equal(("technique", "window", null), Variant(await _host.Owner.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{made.GetProperty("id")}")));

        static (string?, string?, string?) Variant(JsonElement feed) =>
            (feed.GetProperty("gathered").GetString(), feed.GetProperty("span").GetString(), feed.GetProperty("at").GetString());
    }

    [Fact]
    public async Task ApiDocument_DescribesTheVariants()
    {
        var fields = (await _host.Anybody.GetFromJsonAsync<JsonElement>("/openapi/v1.json"))
            .GetProperty("components").GetProperty("schemas").GetProperty("FeedRequest").GetProperty("properties");
        foreach (var name in new[] { "gathered", "span", "at" })
            Assert.Contains("Usual:", fields.GetProperty(name).GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rotate_OldAddress_IsNotFoundAtOnce()
    {
        var made = await MadeAsync("""{"name":"All"}""");
        var old = made.GetProperty("url").GetString();
        using var answer = await SendAsync(HttpMethod.Post, $"/api/v1/feeds/{made.GetProperty("id")}/rotate", "");
        var url = (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("url").GetString();
        Assert.NotEqual(old, url);
        Assert.Equal(HttpStatusCode.NotFound, (await _host.Anybody.GetAsync(old)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await _host.Anybody.GetAsync(url)).StatusCode);
    }

    [Fact]
    public async Task Delete_Feed_IsGoneWithItsAddress()
    {
        var made = await MadeAsync("""{"name":"All"}""");
        var path = $"/api/v1/feeds/{made.GetProperty("id")}";
        Assert.Equal(HttpStatusCode.NoContent, (await _host.Owner.DeleteAsync(path)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _host.Owner.GetAsync(path)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _host.Owner.DeleteAsync(path)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _host.Anybody.GetAsync(made.GetProperty("url").GetString())).StatusCode);
    }

    [Fact]
    public async Task OthersFeed_AnswersLikeNone()
    {
        var made = await MadeAsync("""{"name":"All"}""");
        using var stranger = await _host.StrangerAsync();
        foreach (var id in new[] { made.GetProperty("id").GetGuid(), Guid.NewGuid() })
        {
            foreach (var (method, path) in new[]
            {
                (HttpMethod.Get, ""), (HttpMethod.Delete, ""), (HttpMethod.Post, "/rotate"), (HttpMethod.Patch, "")
            })
            {
                using var request = new HttpRequestMessage(method, $"/api/v1/feeds/{id}{path}");
                if (method == HttpMethod.Patch)
                    request.Content = new StringContent("{}", Encoding.UTF8, "application/json");
                using var answer = await stranger.SendAsync(request);
                Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            }
        }
        Assert.Empty((await stranger.GetFromJsonAsync<JsonElement>("/api/v1/feeds")).GetProperty("items").EnumerateArray());
        Assert.Equal(HttpStatusCode.Unauthorized, (await _host.Anybody.GetAsync("/api/v1/feeds")).StatusCode);
    }

    [Fact]
    public async Task List_Pages_CoverAllOnce()
    {
        for (var number = 0; number < 5; number++)
            await MadeAsync($$"""{"name":"Feed {{number}}"}""");
        var names = new List<string?>();
        string? next = null;
        do
        {
            var page = await _host.Owner.GetFromJsonAsync<JsonElement>("/api/v1/feeds?limit=2" + (next is null ? "" : $"&after={next}"));
            names.AddRange(page.GetProperty("items").EnumerateArray().Select(item => item.GetProperty("name").GetString()));
            next = page.GetProperty("next").GetString();
        }
        while (next is not null);
        Assert.Equal(["Feed 0", "Feed 1", "Feed 2", "Feed 3", "Feed 4"], names.Order());
    }

    [Fact]
    public async Task PublicUrl_Set_BeginsEveryAddress()
    {
        await using var host = FeedHost.Start(("PublicUrl", "https://bonsai.example/trees/"));
        using var answer = await host.Owner.PostAsJsonAsync("/api/v1/feeds", new { name = "All" });
        var made = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.StartsWith("https://bonsai.example/trees/api/v1/calendars/", made.GetProperty("url").GetString(), StringComparison.Ordinal);
        Assert.StartsWith("webcal://bonsai.example/trees/api/v1/calendars/", made.GetProperty("webcalUrl").GetString(), StringComparison.Ordinal);
    }

    private async Task<JsonElement> MadeAsync(string body)
    {
        using var answer = await SendAsync(HttpMethod.Post, "/api/v1/feeds", body);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return await answer.Content.ReadFromJsonAsync<JsonElement>();
    }

    private Task<HttpResponseMessage> SendAsync(HttpMethod method, string path, string body) =>
        _host.Owner.SendAsync(new HttpRequestMessage(method, path) { Content = body.Length == 0 ? null : new StringContent(body, Encoding.UTF8, "application/json") });
}
