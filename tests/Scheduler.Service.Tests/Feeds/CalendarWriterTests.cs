using System.Text;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Tests.Feeds;

public sealed class CalendarWriterTests
{
    private static readonly FeedLook Look = FeedSamples.Look("PT15H");

    [Fact]
    public void Golden_EveryState()
    {
        var held = FeedSamples.Pinch(WindowState.Held) with
        {
            Hold = "frost-soon",
            HeldUntil = new LocalDate(2021, 4, 15),
            Reasons = [new Reason("frost-soon", "Frost to -2 C is forecast for 14 April."), .. FeedSamples.Pinch().Reasons]
        };
        var repotted = FeedSamples.Pinch(WindowState.Withdrawn) with { Reasons = [new Reason("roots-rebuilding", "It was repotted on 20 March 2021.")] };
        var done = FeedSamples.Between(new(2021, 4, 14), new(2021, 4, 14), WindowState.Done);
        var withdrawn = FeedSamples.Shown(4, "Example Hornbeam", repotted);
        var text = FeedSamples.Text(
            FeedSamples.Look("PT15H", "P1DT2H"),
            FeedSamples.Shown(1, "Example Maple, \"the old one\""),
            FeedSamples.Shown(2, "Example Elm", FeedSamples.Pinch(WindowState.Open) with { People = "two people" }),
            FeedSamples.Shown(3, "Żółta brzoza 🌳", held, "Ogród"),
            withdrawn with { Sequence = 3, ChangedAt = FeedSamples.Changed + Duration.FromDays(20) },
            FeedSamples.Shown(5, "Example Beech", done),
            FeedSamples.Shown(6, "Example Oak", FeedSamples.Pinch(WindowState.Missed)));

        var golden = Path.Combine(AppContext.BaseDirectory, "Feeds", "every-state.ics");
        var approved = File.Exists(golden) ? File.ReadAllText(golden) : "";
        var received = Path.Combine(AppContext.BaseDirectory, "every-state.received.ics");
        if (approved != text)
            File.WriteAllText(received, text);
        Assert.True(approved == text, $"The calendar differs from the approved one. Compare with {received}.");
    }

    [Fact]
    public void Event_Dates_EndTheDayAfterTheLast()
    {
        var lines = FeedSamples.Lines(FeedSamples.Text(Look, FeedSamples.Shown(1, "Elm")));
        Assert.Contains("DTSTART;VALUE=DATE:20210412", lines);
        Assert.Contains("DTEND;VALUE=DATE:20210504", lines);
    }

    [Theory]
    [InlineData("2021-04-11")]
    [InlineData("2021-04-12")]
    [InlineData(null)]
    public void Event_CloseNotAfterOpening_LastsOneDay(string? closes)
    {
        var band = closes is null ? DateBand.NotExpected : DateBand.On(NodaTime.Text.LocalDatePattern.Iso.Parse(closes).Value);
        var window = FeedSamples.Pinch() with { Opens = DateBand.On(new(2021, 4, 12)), Closes = band };
        var lines = FeedSamples.Lines(FeedSamples.Text(Look, FeedSamples.Shown(1, "Elm", window)));
        Assert.Contains("DTSTART;VALUE=DATE:20210412", lines);
        Assert.Contains("DTEND;VALUE=DATE:20210413", lines);
    }

    [Theory]
    [InlineData(WindowState.Forecast, "TENTATIVE", true)]
    [InlineData(WindowState.Open, "CONFIRMED", true)]
    [InlineData(WindowState.Held, "CONFIRMED", true)]
    [InlineData(WindowState.Done, "CONFIRMED", false)]
    [InlineData(WindowState.Missed, "CONFIRMED", false)]
    [InlineData(WindowState.Withdrawn, "CANCELLED", false)]
    public void Event_State_SetsStatusAndAlarm(WindowState state, string status, bool rings)
    {
        var lines = FeedSamples.Lines(FeedSamples.Text(Look, FeedSamples.Shown(1, "Elm", FeedSamples.Pinch(state))));
        Assert.Contains("STATUS:" + status, lines);
        Assert.Equal(rings, lines.Contains("TRIGGER:-PT15H"));
    }

    [Fact]
    public void Event_Stamps_AreTheLaterOfWindowAndSettings()
    {
        var shown = FeedSamples.Shown(1, "Elm");
        Assert.Contains("LAST-MODIFIED:20210301T060000Z", FeedSamples.Lines(FeedSamples.Text(Look, shown)));
        var later = Look with { ChangedAt = Instant.FromUtc(2021, 3, 2, 7, 30, 15) };
        var lines = FeedSamples.Lines(FeedSamples.Text(later, shown));
        Assert.Contains("LAST-MODIFIED:20210302T073015Z", lines);
        Assert.Contains("DTSTAMP:20210302T073015Z", lines);
    }

    [Fact]
    public void Alarm_Reminders_OneEachWithTheirOwnStableIds()
    {
        var text = FeedSamples.Text(FeedSamples.Look("P1W", "PT90M", "PT0S"), FeedSamples.Shown(1, "Elm"));
        var lines = FeedSamples.Lines(text);
        Assert.Equal(3, lines.Count(line => line == "BEGIN:VALARM"));
        Assert.Contains("TRIGGER:-P7D", lines);
        Assert.Contains("TRIGGER:-PT1H30M", lines);
        Assert.Contains(lines, line => line is "TRIGGER:PT0S" or "TRIGGER:P0D");
        Assert.Contains($"UID:{FeedSamples.Id(1)}-PT90M@scheduler.test", lines);
        Assert.DoesNotContain("BEGIN:VALARM", FeedSamples.Text(FeedSamples.Look(), FeedSamples.Shown(1, "Elm")));
    }

    [Fact]
    public void Calendar_Nothing_HoldsAComponentAllTheSame()
    {
        var lines = FeedSamples.Lines(FeedSamples.Text(Look));
        Assert.Contains("BEGIN:VTIMEZONE", lines);
        Assert.DoesNotContain("BEGIN:VEVENT", lines);
        Assert.DoesNotContain("BEGIN:VTIMEZONE", FeedSamples.Text(Look, FeedSamples.Shown(1, "Elm")));
    }

    [Fact]
    public void Calendar_Head_NamesTheFeedAndNoMethodOrSource()
    {
        var lines = FeedSamples.Lines(FeedSamples.Text(Look with { Name = "Ława, \"A\"; \\x\r\ny" }));
        Assert.Equal("BEGIN:VCALENDAR", lines[0]);
        Assert.Equal("END:VCALENDAR", lines[^1]);
        Assert.Contains("X-WR-CALNAME:Ława\\, \"A\"\\; /x y", lines);
        Assert.Contains("NAME:Ława\\, \"A\"\\; /x y", lines);
        Assert.Contains("REFRESH-INTERVAL;VALUE=DURATION:PT6H", lines);
        Assert.Single(lines, line => line == "VERSION:2.0");
        Assert.Single(lines, line => line.StartsWith("PRODID:", StringComparison.Ordinal));
        Assert.DoesNotContain(lines, line => line.StartsWith("METHOD", StringComparison.Ordinal) || line.StartsWith("SOURCE", StringComparison.Ordinal));
    }

    [Fact]
    public void Write_SameWindowsInAnyOrder_SameBytes()
    {
        StoredWindow[] windows = [.. Enumerable.Range(1, 30).Select(number => FeedSamples.Shown(number, $"Tree {number}",
            FeedSamples.Between(new LocalDate(2021, 4, 1 + number % 7), new LocalDate(2021, 5, 1))))];
        var one = CalendarWriter.Write(Look, windows);
        var other = CalendarWriter.Write(Look, windows.Reverse());
        Assert.Equal(one, other);
    }

    [Fact]
    public void Write_Bytes_AreFoldedUtf8WithoutMark()
    {
        StoredWindow[] windows = [.. FeedNames.Sweep().Select((name, number) => FeedSamples.Shown(number, name.Written, garden: name.Written))];
        var bytes = CalendarWriter.Write(Look, windows);
        var text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text);
        Assert.EndsWith("END:VCALENDAR\r\n", text);
        Assert.DoesNotContain('\uFFFD', text);
        Assert.DoesNotContain(text.Replace("\r\n", "", StringComparison.Ordinal), char.IsControl);
        Assert.All(text.Split("\r\n"), line => Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.Contains(text.Split("\r\n"), line => Encoding.UTF8.GetByteCount(line) == 75);
    }
}
