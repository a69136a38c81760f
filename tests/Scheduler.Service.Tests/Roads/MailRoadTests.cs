using System.Text.Json.Nodes;
using Ical.Net;
using MimeKit;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Tests.Feeds;
using Scheduler.Service.Tests.Roads.Support;

namespace Scheduler.Service.Tests.Roads;

/// <summary>What a real mail server takes, read back by libraries of their own. 08:00 UTC is ten o'clock in the garden.</summary>
public sealed class MailRoadTests : IAsyncLifetime
{
    private RoadBench _bench = null!;

    public async Task InitializeAsync() => _bench = await RoadBench.StartAsync();

    public async Task DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task Digest_AtItsHour_SaysEverythingOnce()
    {
        await _bench.MailAsync();
        var opening = RoadBench.Window(1, "Old <maple> & co", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20));
        var planned = RoadBench.Window(2, "Young larch", _bench.Today.PlusDays(-30), _bench.Today.PlusDays(40), WindowState.Open);
        await _bench.PlanAsync([opening, planned], RoadBench.Visit(planned, _bench.Today.PlusDays(1)));
        await _bench.DrainAsync();
        Assert.Empty(_bench.Smtp.Raw);
        await _bench.PassAsync(Duration.FromHours(24));

        var mail = Assert.Single(_bench.Smtp.Mails);
        Assert.Equal("Bonsai work, Thursday 16 April: 2 jobs", mail.Subject);
        Assert.Equal("Scheduler", ((MailboxAddress)mail.From[0]).Name);
        Assert.Equal(RoadBench.Address, ((MailboxAddress)mail.To[0]).Address);
        Assert.Equal("2026-04-16T05:00", mail.Date.UtcDateTime.ToString("yyyy-MM-ddTHH:mm", System.Globalization.CultureInfo.InvariantCulture));
        var text = mail.TextBody!.ReplaceLineEndings("\n");
        Assert.Contains("PLANNED\n\n* Pinch window opens: Young larch, planned for today, about 20 minutes (Invented Garden)\n", text, StringComparison.Ordinal);
        Assert.Contains("\n\nOPENING\n\n", text, StringComparison.Ordinal);
        Assert.Contains("* Pinch window opens: Old <maple> & co, likely tomorrow (Invented Garden)\n", text, StringComparison.Ordinal);
        Assert.Contains("    - Take the soft tip between two fingers and twist it out.\n", text, StringComparison.Ordinal);
        Assert.Contains("    How much: Keep one pair of leaves on strong shoots.\n", text, StringComparison.Ordinal);
        Assert.Contains("Old &lt;maple&gt; &amp; co, likely tomorrow", mail.HtmlBody, StringComparison.Ordinal);
        Assert.DoesNotContain("<maple>", mail.HtmlBody, StringComparison.Ordinal);
        Assert.All(_bench.Smtp.Raw, raw => Assert.All(System.Text.Encoding.Latin1.GetString(raw).Split("\r\n"), line => Assert.InRange(line.Length, 0, 998)));
    }

    /// <summary>In the language of the account; what the catalog says stays as it is.</summary>
    [Fact]
    public async Task Digest_SpeaksTheLanguageOfTheAccount()
    {
        await _bench.SpeakAsync("de");
        await _bench.MailAsync();
        var opening = RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20));
        await _bench.PlanAsync(opening);
        await _bench.PassAsync(Duration.FromHours(24));

        var mail = Assert.Single(_bench.Smtp.Mails);
        Assert.Equal("Arbeit an Bonsai, Donnerstag, 16. April: 1 Arbeit", mail.Subject);
        var text = mail.TextBody!.ReplaceLineEndings("\n");
        Assert.Contains("ÖFFNET\n\n* Pinch window opens: Old maple, voraussichtlich morgen (Invented Garden)\n", text, StringComparison.Ordinal);
        Assert.Contains("    Wie viel: Keep one pair of leaves on strong shoots.\n", text, StringComparison.Ordinal);
        Assert.Contains("    Noch nicht offen.", text, StringComparison.Ordinal);
        Assert.Contains("So enden diese Mails:\n", text, StringComparison.Ordinal);
        Assert.Contains("<html lang=\"de\">", mail.HtmlBody, StringComparison.Ordinal);
        Assert.DoesNotMatch("How much|Opens:|Closes:|What to do|Afterwards|sessions?\\b", text);
    }

    [Fact]
    public async Task Digest_SaysHowToEndIt_AndThatAMachineWroteIt()
    {
        await _bench.MailAsync();
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20)));
        await _bench.PassAsync(Duration.FromHours(24));

        var mail = Assert.Single(_bench.Smtp.Mails);
        Assert.Equal("auto-generated", mail.Headers["Auto-Submitted"]);
        Assert.Equal("List-Unsubscribe=One-Click", mail.Headers["List-Unsubscribe-Post"]);
        Assert.Matches("^<https://trees\\.example/api/v1/roads/unsubscribe/[A-Za-z0-9_-]{43}>$", mail.Headers["List-Unsubscribe"]!.Replace(" ", "", StringComparison.Ordinal));
        Assert.EndsWith("@garden.example", mail.MessageId, StringComparison.Ordinal);
        Assert.Contains(mail.Headers["List-Unsubscribe"]!.Trim('<', '>', ' '), mail.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Attachment_IsACalendarOfTheSameEvents()
    {
        await _bench.MailAsync();
        var opening = RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(2), _bench.Today.PlusDays(20));
        var planned = RoadBench.Window(2, "Young larch", _bench.Today.PlusDays(-30), _bench.Today.PlusDays(40), WindowState.Open);
        await _bench.PlanAsync([opening, planned], RoadBench.Visit(planned, _bench.Today.PlusDays(1)));
        await _bench.PassAsync(Duration.FromHours(24));

        var part = (MimePart)Assert.Single(_bench.Smtp.Mails[0].Attachments);
        Assert.Equal("text/calendar", part.ContentType.MimeType);
        Assert.Equal("utf-8", part.ContentType.Charset);
        Assert.Equal("bonsai-work.ics", part.FileName);
        using var bytes = new MemoryStream();
        await part.Content!.DecodeToAsync(bytes);
        var calendar = Calendar.Load(System.Text.Encoding.UTF8.GetString(bytes.ToArray()))!;
        Assert.Null(calendar.Method);
        Assert.Equal(
            [$"{FeedSamples.Id(1):D}@scheduler.test", $"{FeedSamples.Id(2):D}-visit-1@scheduler.test", $"{FeedSamples.Id(2):D}@scheduler.test"],
            calendar.Events.Select(one => one.Uid!).Order(StringComparer.Ordinal));
        Assert.Equal(new DateTime(2026, 4, 17), calendar.Events.Single(one => one.Uid!.StartsWith($"{FeedSamples.Id(1):D}", StringComparison.Ordinal)).Start!.Value);
    }

    [Fact]
    public async Task NothingToSay_SendsNoMail()
    {
        await _bench.MailAsync();
        await _bench.PlanAsync(RoadBench.Window(1, "Old maple", _bench.Today.PlusDays(60), _bench.Today.PlusDays(80)));
        await _bench.PassAsync(Duration.FromHours(50));
        Assert.Empty(_bench.Smtp.Raw);
    }

    [Fact]
    public async Task Weekly_ComesOnItsDay_AndSpeaksOfTheWholeWeek()
    {
        await _bench.MailAsync(new JsonObject { ["digest"] = new JsonObject { ["every"] = "week", ["at"] = "18:30", ["day"] = "sunday" } });
        // 15 April is a Wednesday; the Sunday's week goes to the 27th.
        StoredAhead(out var near, out var far);
        await _bench.PlanAsync(near, far);
        for (var day = 0; day < 5; day++)
        {
            await _bench.PassAsync(Duration.FromHours(24));
            await _bench.PlanAsync(near, far);
        }
        var mail = Assert.Single(_bench.Smtp.Mails);
        Assert.Equal("2026-04-19T16:30", mail.Date.UtcDateTime.ToString("yyyy-MM-ddTHH:mm", System.Globalization.CultureInfo.InvariantCulture));
        Assert.Contains("Near tree, likely 26 April", mail.TextBody, StringComparison.Ordinal);
        Assert.DoesNotContain("Far tree", mail.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FrostTonight_GoesAtOnce_WithWhatToDo()
    {
        await _bench.MailAsync();
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today), RoadBench.Window(2, "Young larch", _bench.Today.PlusDays(1), _bench.Today.PlusDays(9)));
        await _bench.DrainAsync();
        var mail = Assert.Single(_bench.Smtp.Mails);
        Assert.Equal("Frost tonight: Old maple", mail.Subject);
        Assert.Contains("TONIGHT", mail.TextBody, StringComparison.Ordinal);
        Assert.Contains("Into the frost-free shed for the night.", mail.TextBody, StringComparison.Ordinal);
        Assert.DoesNotContain("Young larch", mail.TextBody, StringComparison.Ordinal);
        await _bench.PassAsync(Duration.FromHours(10));
        Assert.Single(_bench.Smtp.Raw);
    }

    [Fact]
    public async Task MailThatWasTakenButNotAcknowledged_IsSentAgainUnderTheSameId()
    {
        await _bench.MailAsync();
        await _bench.PlanAsync(RoadBench.Frost(1, "Old maple", _bench.Today, _bench.Today));
        _bench.Smtp.IsMute = true;
        await _bench.DrainAsync();
        _bench.Smtp.IsMute = false;
        await _bench.PassAsync(Duration.FromMinutes(2));
        Assert.Equal(2, _bench.Smtp.Mails.Count);
        Assert.Single(_bench.Smtp.Mails.Select(mail => mail.MessageId).Distinct());
    }

    [Theory]
    [InlineData("starttls")]
    [InlineData("tls")]
    public async Task Server_ThatSpeaksNoTls_GetsNoMailInTheClear(string security)
    {
        await using var bench = await RoadBench.StartAsync(settings: [("Mail:Security", security), ("Mail:User", "invented"), ("Mail:Password", "secret")]);
        var road = await bench.MakeAsync(new JsonObject { ["kind"] = "email", ["address"] = RoadBench.Address });
        Assert.Equal("No secure connection to the mail server.", road.GetProperty("lastError").GetString());
        Assert.Empty(bench.Smtp.Raw);
    }

    [Fact]
    public async Task Host_WithoutPublicUrl_OnAPublicAddress_SaysSo()
    {
        await using var bench = await RoadBench.StartAsync(settings: [("PublicUrl", ""), ("Urls", "http://0.0.0.0:5080"), ("Accounts:SignUp", "open")]);
        var road = await bench.MakeAsync(new JsonObject { ["kind"] = "email", ["address"] = RoadBench.Address });
        Assert.Contains("no PublicUrl", road.GetProperty("lastError").GetString(), StringComparison.Ordinal);
        Assert.Empty(bench.Smtp.Raw);
    }

    [Fact]
    public async Task Host_WithoutMail_SaysSo()
    {
        await using var bench = await RoadBench.StartAsync(settings: [("Mail:Host", null)]);
        var road = await bench.MakeAsync(new JsonObject { ["kind"] = "email", ["address"] = RoadBench.Address });
        Assert.Equal("unconfirmed", road.GetProperty("state").GetString());
        Assert.Contains("no Mail:Host", road.GetProperty("lastError").GetString(), StringComparison.Ordinal);
        Assert.Contains("no Mail:Host", (await bench.TestAsync(road.GetProperty("id").GetString()!)).GetProperty("error").GetString(), StringComparison.Ordinal);
    }

    private void StoredAhead(out Scheduler.Service.Plans.StoredWindow near, out Scheduler.Service.Plans.StoredWindow far)
    {
        near = RoadBench.Window(1, "Near tree", new LocalDate(2026, 4, 26), new LocalDate(2026, 5, 20));
        far = RoadBench.Window(2, "Far tree", new LocalDate(2026, 4, 28), new LocalDate(2026, 5, 20));
    }
}
