using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class DayRankingTests
{
    private static readonly LocalDate Today = new(2026, 4, 20);
    private static readonly Instant Now = Instant.FromUtc(2026, 4, 20, 10, 0);

    private static SourceDay Day(string source, DayKind kind, double minC = 1, bool final = false, int hoursAgo = 0, int daysAgo = 10) => new(
        Today.PlusDays(-daysAgo), minC, 9, null, null, null, null, kind, source, final, Now - Duration.FromHours(hoursAgo));

    [Theory]
    [InlineData("met-norway", "open-meteo", true)]
    [InlineData("open-meteo", "met-norway", false)]
    [InlineData("open-meteo", "open-meteo-archive", true)]
    [InlineData("open-meteo-archive", "open-meteo", false)]
    [InlineData("open-meteo", "open-meteo", true)]
    public void Winner_PastDayOfTwoSources_IsTheBetterSource(string stored, string offered, bool replaces)
    {
        var winner = DayRanking.Winner(Day(stored, DayKind.Observed), Day(offered, DayKind.Observed, minC: 2), Today);
        Assert.Equal(replaces, winner is not null);
    }

    [Fact]
    public void Winner_ForecastAgainstWhatHappened_IsWhatHappened()
    {
        Assert.Null(DayRanking.Winner(Day("met-norway", DayKind.Observed), Day("open-meteo", DayKind.Forecast), Today));
        Assert.NotNull(DayRanking.Winner(Day("open-meteo", DayKind.Forecast), Day("met-norway", DayKind.Observed), Today));
    }

    [Fact]
    public void Winner_WorseForecast_OnlyReplacesOneThatIsOlderThanADay()
    {
        var fallback = Day("met-norway", DayKind.Forecast, minC: 2, daysAgo: -3);
        Assert.Null(DayRanking.Winner(Day("open-meteo", DayKind.Forecast, hoursAgo: 20, daysAgo: -3), fallback, Today));
        Assert.Equal(fallback, DayRanking.Winner(Day("open-meteo", DayKind.Forecast, hoursAgo: 30, daysAgo: -3), fallback, Today));
    }

    [Fact]
    public void Winner_FinalDay_NeverChanges() =>
        Assert.Null(DayRanking.Winner(
            Day("open-meteo-archive", DayKind.Observed, final: true), Day("open-meteo-archive", DayKind.Observed, minC: 2), Today));

    [Theory]
    [InlineData(10, 1, true)]
    [InlineData(10, 2, false)]
    [InlineData(6, 1, false)]
    public void Winner_ArchiveDaySeenAgain_IsFinalWhenOldEnoughAndUnchanged(int daysAgo, double minC, bool final)
    {
        var first = Day("open-meteo-archive", DayKind.Observed, hoursAgo: 24 * 7, daysAgo: daysAgo);
        var winner = DayRanking.Winner(first, Day("open-meteo-archive", DayKind.Observed, minC, daysAgo: daysAgo), Today);
        Assert.Equal(final, winner!.Final);
    }

    [Fact]
    public void Winner_OldArchiveDay_IsFinalAtOnce() =>
        Assert.True(DayRanking.Winner(null, Day("open-meteo-archive", DayKind.Observed, daysAgo: 60), Today)!.Final);

    [Fact]
    public void Winner_WithoutRain_KeepsTheRainOfTheForecastSource()
    {
        var stored = Day("open-meteo", DayKind.Observed) with { PrecipMm = 3, GustKmh = 40 };
        var winner = DayRanking.Winner(stored, Day("open-meteo-archive", DayKind.Observed, minC: 2), Today)!;
        Assert.Equal((2, 3, 40), (winner.MinC, winner.PrecipMm, winner.GustKmh));
    }
}
