using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class EventTextTests
{
    [Fact]
    public void Description_Open_TellsTheWorkBeforeTheDates()
    {
        var text = Description(FeedSamples.Pinch(WindowState.Open));
        string[] order = ["Open:", "What to do:", "How much: Keep one pair", "Beware:", "Why now: The first two leaves", "Opens: likely 12 April 2021, early 5 April 2021, late 20 April 2021", "Closes:", "Afterwards: No feed", "Time: about 20 minutes a session, 2 to 4 sessions"];
        var places = order.Select(part => text.IndexOf(part, StringComparison.Ordinal)).ToList();
        Assert.DoesNotContain(-1, places);
        Assert.Equal(places.Order(), places);
    }

    [Fact]
    public void Description_HeldWithoutEnd_NamesTheHold()
    {
        var text = Description(FeedSamples.Pinch(WindowState.Held) with { Hold = "wind-strong" });
        Assert.StartsWith("On hold for as far as the forecast reaches: wind strong. Wait with this work.\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Description_HeldWithItsReason_SaysItOnce()
    {
        var held = FeedSamples.Pinch(WindowState.Held) with
        {
            Hold = "frost-soon",
            HeldUntil = new(2021, 4, 15),
            Reasons = [new Reason("new-shoots", "Leaves part."), new Reason("frost-soon", "Frost is near.")]
        };
        var text = Description(held);
        Assert.StartsWith("On hold until 15 April 2021: Frost is near. Wait with this work.\n", text, StringComparison.Ordinal);
        Assert.Equal(text.IndexOf("Frost is near", StringComparison.Ordinal), text.LastIndexOf("Frost is near", StringComparison.Ordinal));
        Assert.Contains("Why now: Leaves part.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Description_CloseUnknown_SaysSo()
    {
        var text = Description(FeedSamples.Pinch() with { Closes = DateBand.NotExpected });
        Assert.Contains("Closes: not in sight this season", text, StringComparison.Ordinal);
        text = Description(FeedSamples.Pinch() with { Closes = new DateBand(new(2021, 9, 1), new(2021, 9, 20), null) });
        Assert.Contains("Closes: likely 20 September 2021, early 1 September 2021, late perhaps not this season", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(WindowState.Withdrawn, "Called off.")]
    [InlineData(WindowState.Missed, "This window has closed")]
    [InlineData(WindowState.Done, "Done.")]
    public void Description_Over_TellsNoWork(WindowState state, string start)
    {
        var text = Description(FeedSamples.Pinch(state));
        Assert.StartsWith(start, text, StringComparison.Ordinal);
        Assert.DoesNotContain("What to do", text, StringComparison.Ordinal);
        Assert.DoesNotContain("How much", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2-3", "Time: about 20 minutes a session, 2 to 4 sessions, 2-3 people")]
    [InlineData("with a helper", "Time: about 20 minutes a session, 2 to 4 sessions, with a helper")]
    [InlineData(null, "Time: about 20 minutes a session, 2 to 4 sessions")]
    public void Description_SaysHowManyPeople(string? people, string time) =>
        Assert.EndsWith(time, Description(FeedSamples.Pinch() with { People = people }).TrimEnd(), StringComparison.Ordinal);

    private static string Description(WorkWindow window) => EventText.Description(FeedSamples.Stored(1, "Elm", window));
}
