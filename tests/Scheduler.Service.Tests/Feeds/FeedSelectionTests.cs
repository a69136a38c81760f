using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class FeedSelectionTests
{
    private static readonly Instant Now = Instant.FromUtc(2021, 6, 1, 9, 0);

    [Theory]
    [InlineData("2021-04-01", "2021-05-02", true)]
    [InlineData("2021-04-01", "2021-05-01", false)]
    [InlineData("2022-12-01", "2022-12-20", true)]
    [InlineData("2022-12-02", "2022-12-20", false)]
    public void Shows_MonthBackAndEighteenMonthsAhead(string opens, string closes, bool shown) =>
        Assert.Equal(shown, FeedSelection.Shows(FeedSamples.Stored(1, "Elm", FeedSamples.Between(Date(opens), Date(closes))), Now));

    [Fact]
    public void Shows_NotExpected_Never() =>
        Assert.False(FeedSelection.Shows(FeedSamples.Stored(1, "Elm", FeedSamples.Pinch() with { Opens = DateBand.NotExpected }), Now));

    [Fact]
    public void Shows_WithdrawnNearItsPastEdge_ForAllThirtyDays()
    {
        var withdrawnAt = Instant.FromUtc(2021, 5, 3, 9, 0);
        var window = FeedSamples.Stored(1, "Elm", FeedSamples.Between(new(2021, 4, 1), new(2021, 4, 5), WindowState.Withdrawn)) with { WithdrawnAt = withdrawnAt };
        Assert.True(FeedSelection.Shows(window, withdrawnAt + Duration.FromDays(30) - Duration.FromSeconds(1)));
        Assert.False(FeedSelection.Shows(window, withdrawnAt + Duration.FromDays(30)));
    }

    private static LocalDate Date(string text) => NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
