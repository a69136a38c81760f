using System.IO.Compression;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class CalendarsApiTests : IAsyncLifetime
{
    private FeedHost _host = null!;
    private Feed _feed = null!;
    private string _path = "";

    public async Task InitializeAsync()
    {
        _host = FeedHost.Start(("RateLimits:WrongSecretsPerMinute", "3"));
        _feed = await _host.Bench.Keeper.CreateAsync(FeedBench.Account, FeedBench.Settings("PT15H"));
        await _host.Bench.PlanAsync(FeedBench.Garden, [.. Enumerable.Range(1, 20).Select(number => FeedBench.Tree(number, $"Maple {number}", FeedSamples.Pinch()))]);
        _path = $"/api/v1/calendars/{_host.Bench.Tokens.Open(_feed.TokenSealed)}.ics";
    }

    public async Task DisposeAsync() => await _host.DisposeAsync();

    [Fact]
    public async Task Get_Feed_GivesKeptBytesAndCarefulHeaders()
    {
        using var answer = await _host.Anybody.GetAsync(_path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal((await _host.Bench.BodyAsync(_feed)).Body, await answer.Content.ReadAsByteArrayAsync());
        Assert.Equal("text/calendar; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        Assert.True(answer.Headers.ETag!.IsWeak);
        Assert.Equal((await _host.Bench.BodyAsync(_feed)).BodyChangedAt.ToDateTimeOffset(), answer.Content.Headers.LastModified);
        Assert.True(answer.Headers.CacheControl!.Private);
        Assert.Equal("noindex", Assert.Single(answer.Headers.GetValues("X-Robots-Tag")));
        Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        Assert.Equal(["Accept-Encoding"], answer.Headers.Vary);
    }

    [Fact]
    public async Task Head_Feed_GivesTheHeadersOfGet()
    {
        using var get = await _host.Anybody.GetAsync(_path);
        using var head = await _host.Anybody.SendAsync(new HttpRequestMessage(HttpMethod.Head, _path));
        Assert.Equal(HttpStatusCode.OK, head.StatusCode);
        Assert.Empty(await head.Content.ReadAsByteArrayAsync());
        Assert.Equal(get.Headers.ETag, head.Headers.ETag);
        Assert.Equal(get.Content.Headers.ContentLength, head.Content.Headers.ContentLength);
        Assert.Equal(get.Content.Headers.ContentType, head.Content.Headers.ContentType);
        Assert.Equal(get.Content.Headers.LastModified, head.Content.Headers.LastModified);
    }

    [Theory]
    [InlineData("{0}")]
    [InlineData("\"other\", {0}")]
    [InlineData("W/\"other\" , W/\"more\",{0}")]
    [InlineData("{1}")]
    [InlineData("*")]
    public async Task Get_KnownTag_IsNotModified(string ifNoneMatch)
    {
        using var first = await _host.Anybody.GetAsync(_path);
        var tag = first.Headers.ETag!;
        using var again = await GetAsync(("If-None-Match", string.Format(null, ifNoneMatch, tag, tag.Tag)));
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Empty(await again.Content.ReadAsByteArrayAsync());
        Assert.Equal(tag, again.Headers.ETag);
        Assert.True(again.Headers.CacheControl!.Private);
        Assert.Equal(["Accept-Encoding"], again.Headers.Vary);
    }

    [Fact]
    public async Task Get_OtherTagWithOldDate_TagWins()
    {
        using var first = await _host.Anybody.GetAsync(_path);
        var date = first.Content.Headers.LastModified!.Value.ToString("R");
        using var byDate = await GetAsync(("If-Modified-Since", date));
        Assert.Equal(HttpStatusCode.NotModified, byDate.StatusCode);
        using var both = await GetAsync(("If-None-Match", "\"other\""), ("If-Modified-Since", date));
        Assert.Equal(HttpStatusCode.OK, both.StatusCode);
    }

    [Fact]
    public async Task Get_WindowMoved_TagIsOldNews()
    {
        using var first = await _host.Anybody.GetAsync(_path);
        await _host.Bench.PlanAsync(FeedBench.Garden, FeedBench.Tree(1, "Maple 1", FeedSamples.Between(new(2021, 4, 1), new(2021, 4, 9))));
        using var again = await GetAsync(("If-None-Match", first.Headers.ETag!.ToString()), ("If-Modified-Since", first.Content.Headers.LastModified!.Value.ToString("R")));
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
    }

    [Fact]
    public async Task Get_Gzip_IsTheSameFeedSmaller()
    {
        using var plain = await _host.Anybody.GetAsync(_path);
        using var packed = await GetAsync(("Accept-Encoding", "gzip"));
        Assert.Equal(["gzip"], packed.Content.Headers.ContentEncoding);
        Assert.Equal(plain.Headers.ETag, packed.Headers.ETag);
        Assert.Equal(["Accept-Encoding"], packed.Headers.Vary);
        var bytes = await packed.Content.ReadAsByteArrayAsync();
        await using var unpacked = new GZipStream(new MemoryStream(bytes), CompressionMode.Decompress);
        using var whole = new MemoryStream();
        await unpacked.CopyToAsync(whole);
        var expected = await plain.Content.ReadAsByteArrayAsync();
        Assert.Equal(expected, whole.ToArray());
        Assert.True(bytes.Length * 4 < expected.Length, $"{bytes.Length} of {expected.Length} bytes");
    }

    [Fact]
    public async Task Get_UnknownToken_IsAProblemAndLimited()
    {
        var unknown = $"/api/v1/calendars/{FeedTokens.New()}.ics";
        for (var attempt = 0; attempt < 3; attempt++)
        {
            using var answer = await _host.Anybody.GetAsync(attempt == 1 ? "/api/v1/calendars/short.ics" : unknown);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        }
        using var limited = await _host.Anybody.GetAsync(unknown);
        Assert.Equal(HttpStatusCode.TooManyRequests, limited.StatusCode);
        Assert.NotNull(limited.Headers.RetryAfter);
        using var right = await _host.Anybody.GetAsync(_path);
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
    }

    [Fact]
    public async Task Get_Fetch_IsNotedOnceAMinuteAsItsKindOfApp()
    {
        (await GetAsync(("User-Agent", "Mozilla/5.0 (X11) Thunderbird/128.0 of-a-person"))).Dispose();
        (await GetAsync(("User-Agent", "curl/8"))).Dispose();
        var until = DateTime.UtcNow.AddSeconds(20);
        JsonElement shown;
        do
        {
            shown = await _host.Owner.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{_feed.Id}");
            await Task.Delay(20);
        }
        while (shown.GetProperty("lastFetchedBy").ValueKind is JsonValueKind.Null && DateTime.UtcNow < until);
        Assert.Equal("desktop", shown.GetProperty("lastFetchedBy").GetString());
        Assert.Equal("2021-03-01T06:00:00Z", shown.GetProperty("lastFetchedAt").GetString());
        var note = shown.GetProperty("calendarApps").EnumerateArray().Single(app => app.GetProperty("kind").GetString() == "desktop");
        Assert.All(new[] { "name", "alarms", "refresh" }, field => Assert.NotEmpty(note.GetProperty(field).GetString()!));
        await Task.Delay(200);
        shown = await _host.Owner.GetFromJsonAsync<JsonElement>($"/api/v1/feeds/{_feed.Id}");
        Assert.Equal("desktop", shown.GetProperty("lastFetchedBy").GetString());
        await using var connection = await _host.Bench.Database.OpenAsync();
        Assert.Equal("desktop", Dapper.SqlMapper.QuerySingle<string>(connection, "SELECT last_fetched_by FROM feeds"));
    }

    private Task<HttpResponseMessage> GetAsync(params (string Name, string Value)[] headers)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, _path);
        foreach (var (name, value) in headers)
            request.Headers.TryAddWithoutValidation(name, value);
        return _host.Anybody.SendAsync(request);
    }
}
