using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Tests.Planning;

/// <summary>Urgent 3 days, a fifth of the days ahead, half of the days from early to late, at most 7 days.</summary>
public class CalmDatesTests
{
    private static readonly LocalDate Today = new(2026, 4, 1);
    private static readonly CalmDates Calm = new(DayOrderTests.Rules);

    [Theory]
    [InlineData(60, 40, 7)]
    [InlineData(30, 40, 6)]
    [InlineData(14, 40, 2)]
    [InlineData(14, 2, 1)]
    [InlineData(4, 40, 1)]
    [InlineData(3, 40, 0)]
    [InlineData(0, 40, 0)]
    public void Tolerance_ShrinksWithTheDaysAheadAndTheBand(int daysAhead, int bandDays, int expected) =>
        Assert.Equal(expected, Calm.ToleranceDays(daysAhead, Around(daysAhead, bandDays / 2)));

    [Theory]
    [InlineData(40, 46, 40)]
    [InlineData(40, 34, 40)]
    [InlineData(40, 48, 48)]
    [InlineData(40, 32, 32)]
    [InlineData(12, 14, 12)]
    [InlineData(12, 15, 15)]
    [InlineData(12, 9, 9)]
    [InlineData(4, 3, 3)]
    [InlineData(3, 4, 3)]
    [InlineData(3, 5, 5)]
    [InlineData(2, 1, 1)]
    public void Opening_MovesOnlyWhenItLeavesTheTolerance(int announced, int found, int expected)
    {
        var window = Calm.Announce(Window(Around(announced, 12)), Window(Around(found, 12)), Today);
        Assert.Equal(Today.PlusDays(expected), window.Opens.Likely);
    }

    [Theory]
    [InlineData(10, 11, 10)]
    [InlineData(3, 2, 2)]
    [InlineData(1, 2, 1)]
    [InlineData(0, 2, 2)]
    [InlineData(-1, 3, 3)]
    public void Closing_ComesSoonerAtOnceAndLaterOnItsDay(int announced, int found, int expected)
    {
        var open = Window(DateBand.On(Today.PlusDays(-9)), WindowState.Open);
        var window = Calm.Announce(open with { Closes = Around(announced, 4) }, open with { Closes = Around(found, 4) }, Today);
        Assert.Equal(Today.PlusDays(expected), window.Closes.Likely);
    }

    [Fact]
    public void KeptDate_TakesTheNewEarlyAndLateOnceTheyAreFarOff()
    {
        var found = new DateBand(Today.PlusDays(29), Today.PlusDays(42), Today.PlusDays(44));
        var opens = Calm.Announce(Window(Around(40, 20)), Window(found), Today).Opens;
        Assert.Equal(new DateBand(Today.PlusDays(29), Today.PlusDays(40), Today.PlusDays(44)), opens);
        Assert.Equal(Around(40, 20), Calm.Announce(Window(Around(40, 20)), Window(Around(42, 20)), Today).Opens);
    }

    [Fact]
    public void ChangeOfState_GoesThrough()
    {
        var opened = Calm.Announce(Window(Around(5, 6)), Window(DateBand.On(Today), WindowState.Open), Today);
        Assert.Equal((WindowState.Open, Today), (opened.State, opened.Opens.Likely));
        var missed = Window(Around(-9, 2), WindowState.Missed) with { Closes = DateBand.On(Today.PlusDays(-1)) };
        var closed = Calm.Announce(Window(Around(-9, 2), WindowState.Open) with { Closes = Around(1, 2) }, missed, Today);
        Assert.Equal((WindowState.Missed, Today.PlusDays(-1)), (closed.State, closed.Closes.Likely));
    }

    [Fact]
    public void WhatHasOpened_KeepsItsDay()
    {
        var announced = Window(Around(-2, 6), WindowState.Open);
        var later = Calm.Announce(announced, Window(DateBand.On(Today.PlusDays(-4)), WindowState.Open), Today);
        Assert.Equal(DateBand.On(Today.PlusDays(-2)), later.Opens);
        var over = announced with { State = WindowState.Missed };
        Assert.Equal(over.Opens, Calm.Announce(over, over with { Opens = DateBand.On(Today.PlusDays(-7)) }, Today).Opens);
    }

    [Fact]
    public void DayThatCameWithoutTheOpening_IsFollowedByTheLateDate()
    {
        var (tomorrow, late) = (Today.PlusDays(1), Today.PlusDays(8));
        var found = Window(new DateBand(tomorrow, tomorrow, late));
        var announced = Calm.Announce(Window(Around(0, 6)), found, Today);
        Assert.Equal((late, late), (announced.Opens.Likely, announced.Opens.Late));
        var nextDay = Window(new DateBand(tomorrow.PlusDays(1), tomorrow.PlusDays(1), late.PlusDays(1)));
        Assert.Equal(late, Calm.Announce(announced, nextDay, tomorrow).Opens.Likely);
    }

    [Fact]
    public void WhatTheForecastAsksFor_IsNeverHeldBack()
    {
        var frost = Window(Around(12, 0)) with { Key = new WindowKey(Guid.Empty, "frost-protection", null, 2026, 5) };
        Assert.Equal(Around(11, 0), Calm.Announce(frost, frost with { Opens = Around(11, 0) }, Today).Opens);
    }

    [Fact]
    public void KeptOpening_NeverStandsAfterTheClose()
    {
        var announced = Window(Around(40, 20)) with { Closes = Around(43, 20) };
        var window = Calm.Announce(announced, Window(Around(34, 20)) with { Closes = Around(35, 20) }, Today);
        Assert.True(window.Closes.Likely >= window.Opens.Likely);
    }

    private static DateBand Around(int likely, int half) =>
        new(Today.PlusDays(likely - half), Today.PlusDays(likely), Today.PlusDays(likely + half));

    private static WorkWindow Window(DateBand opens, WindowState state = WindowState.Forecast) => new()
    {
        Key = new WindowKey(Guid.Empty, "tip-pinch", null, 2026, 1), Opens = opens, Closes = Around(90, 6), State = state, Title = "Pinch", Reasons = [], Amount = ""
    };
}
