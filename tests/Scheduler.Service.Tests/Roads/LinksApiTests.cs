using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

public sealed class LinksApiTests : IAsyncLifetime
{
    private RoadBench _bench = null!;
    private HttpClient _anybody = null!;

    public async Task InitializeAsync()
    {
        _bench = await RoadBench.StartAsync();
        _anybody = _bench.Service.Anonymous();
    }

    public async Task DisposeAsync()
    {
        _anybody.Dispose();
        await _bench.DisposeAsync();
    }

    [Fact]
    public async Task Address_GetsNothingButTheQuestion_UntilItSaysYes()
    {
        var id = await AskedAsync();
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today));
        await _bench.PassAsync(Duration.FromHours(2));
        var question = Assert.Single(_bench.Smtp.Mails);
        Assert.Equal("auto-generated", question.Headers["Auto-Submitted"]);

        // Mail programs open links by themselves: that confirms nothing.
        var link = RoadBench.LinkIn(question.TextBody!, "/roads/confirm/");
        using var page = await _anybody.GetAsync(link);
        Assert.Equal("text/html", page.Content.Headers.ContentType!.MediaType);
        Assert.Contains("<form method=\"post\">", await page.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("form-action 'self'", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Equal("unconfirmed", await StateAsync(id));

        using var yes = await _anybody.PostAsync(link, new FormUrlEncodedContent([]));
        Assert.Equal(HttpStatusCode.OK, yes.StatusCode);
        Assert.Equal("on", await StateAsync(id));
        await _bench.DrainAsync();
        Assert.Equal("Frost tonight: Old maple", _bench.Smtp.Mails[^1].Subject);
        // It confirms once.
        Assert.Equal(HttpStatusCode.NotFound, (await _anybody.PostAsync(link, null)).StatusCode);
    }

    [Fact]
    public async Task Question_HoldsForSevenDays_AndATestAsksAgain()
    {
        var id = await AskedAsync();
        _bench.Clock.AdvanceDays(7);
        Assert.Equal(HttpStatusCode.NotFound, (await _anybody.PostAsync(RoadBench.LinkIn(_bench.Smtp.Mails[0].TextBody!, "/confirm/"), null)).StatusCode);
        Assert.True((await _bench.TestAsync(id)).GetProperty("arrived").GetBoolean());
        await _bench.ConfirmAsync();
        Assert.Equal("on", await StateAsync(id));
    }

    [Fact]
    public async Task OneClick_EndsTheMails_UntilTheAddressSaysYesAgain()
    {
        var id = await _bench.MailAsync();
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today));
        await _bench.DrainAsync();
        var mail = Assert.Single(_bench.Smtp.Mails);
        var link = RoadBench.LinkIn(mail.Headers["List-Unsubscribe"]!, "/unsubscribe/");
        Assert.Contains("<form method=\"post\">", await _anybody.GetStringAsync(link), StringComparison.Ordinal);
        Assert.Equal("on", await StateAsync(id));

        // As RFC 8058 section 3.2 has mail programs send it; a second click changes nothing.
        foreach (var _ in new[] { 1, 2 })
        {
            using var answer = await _anybody.PostAsync(link, new FormUrlEncodedContent([new("List-Unsubscribe", "One-Click")]));
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }
        Assert.Equal("unsubscribed", await StateAsync(id));
        await _bench.PlanAsync(RoadBench.Frost(2, "Young larch", _bench.Today, _bench.Today));
        await _bench.PassAsync(Duration.FromHours(24));
        Assert.Single(_bench.Smtp.Mails);

        using var forced = await _bench.Owner.PatchAsync($"{RoadBench.Root}/{id}", Tests.Support.Bodies.Raw("""{"on":true}"""));
        Assert.Equal(HttpStatusCode.BadRequest, forced.StatusCode);
        await _bench.TestAsync(id);
        Assert.Equal("Please confirm your bonsai work mails", _bench.Smtp.Mails[^1].Subject);
        await _bench.ConfirmAsync();
        Assert.Equal("on", await StateAsync(id));
    }

    [Theory]
    [InlineData("confirm")]
    [InlineData("unsubscribe")]
    public async Task WrongSecrets_AreNotFound_AndCounted(string link)
    {
        Assert.Equal(HttpStatusCode.NotFound, (await _anybody.GetAsync($"{RoadBench.Root}/{link}/{new string('x', 43)}")).StatusCode);
        var last = HttpStatusCode.OK;
        for (var guess = 0; guess < 40; guess++)
            last = (await _anybody.PostAsync($"{RoadBench.Root}/{link}/{guess}", null)).StatusCode;
        Assert.Equal(HttpStatusCode.TooManyRequests, last);
    }

    [Fact]
    public async Task Address_IsAskedAFewTimesADay_WhoeverAsks()
    {
        var id = await AskedAsync();
        for (var again = 0; again < 4; again++)
            Assert.True((await _bench.TestAsync(id)).GetProperty("arrived").GetBoolean());
        Assert.Contains("too often", (await _bench.TestAsync(id)).GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.Equal(5, _bench.Smtp.Mails.Count);
    }

    [Fact]
    public async Task LinkSentToTheOldAddress_DoesNotSpeakForTheNewOne()
    {
        var other = await _bench.MakeAsync(new JsonObject { ["kind"] = "email", ["address"] = "second@garden.example" });
        for (var again = 0; again < 4; again++)
            await _bench.TestAsync(other.GetProperty("id").GetString()!);
        var id = await AskedAsync();
        var link = RoadBench.LinkIn(_bench.Smtp.Mails[^1].TextBody!, "/roads/confirm/");
        // The new address was asked too often today, so no new link takes the place of the old one.
        using var moved = await _bench.Owner.PatchAsync($"{RoadBench.Root}/{id}", Tests.Support.Bodies.Raw("""{"address":"second@garden.example"}"""));
        Assert.Equal(HttpStatusCode.OK, moved.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _anybody.PostAsync(link, null)).StatusCode);
        Assert.Equal("unconfirmed", await StateAsync(id));
    }

    [Fact]
    public async Task LinkOfTheQuestion_OutlivesAChangeOfName()
    {
        var id = await AskedAsync();
        using var renamed = await _bench.Owner.PatchAsync($"{RoadBench.Root}/{id}", Tests.Support.Bodies.Raw("""{"name":"Mail to me"}"""));
        Assert.Equal(HttpStatusCode.OK, renamed.StatusCode);
        await _bench.ConfirmAsync();
        Assert.Equal("on", await StateAsync(id));
    }

    private async Task<string> AskedAsync() =>
        (await _bench.MakeAsync(new JsonObject { ["kind"] = "email", ["address"] = RoadBench.Address })).GetProperty("id").GetString()!;

    private async Task<string> StateAsync(string id) => (await _bench.RoadAsync(id)).GetProperty("state").GetString()!;
}
