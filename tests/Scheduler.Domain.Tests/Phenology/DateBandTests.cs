using CsCheck;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class DateBandTests
{
    private const double Never = double.PositiveInfinity;
    private static readonly GrowthYear Year = new(2023, Hemisphere.North);

    [Fact]
    public void Of_ElevenDraws_TakesSecondSixthAndTenth() =>
        Assert.Equal(
            new DateBand(Year.DateOf(201), Year.DateOf(205), Year.DateOf(209)),
            DateBand.Of(Year, [210, 209, 208, 207, 206, 205.9, 204, 203, 202, 201.5, 200]));

    [Fact]
    public void Of_MoreThanHalfNever_NotExpected() =>
        Assert.Equal(DateBand.NotExpected, DateBand.Of(Year, [200, 201, Never, Never, Never]));

    [Fact]
    public void Of_OnlyTheLateDrawsNever_HasNoLateDate() =>
        Assert.Equal(new DateBand(Year.DateOf(200), Year.DateOf(202), null), DateBand.Of(Year, [200, 201, 202, 203, Never]));

    [Fact]
    public void Of_AnyOrder_IsTheRankOfTheSortedDays()
    {
        // A fixed walk through many orders, with equal days and draws that never come.
        var state = 1u;
        for (var turn = 0; turn < 300; turn++)
        {
            var days = new double[1 + turn % 160];
            for (var draw = 0; draw < days.Length; draw++)
            {
                state = state * 1664525 + 1013904223;
                days[draw] = state % 11 == 0 ? Never : 100 + state / 65536 % (turn % 2 == 0 ? 7 : 200);
            }
            double[] given = [.. days], sorted = [.. days.Order()];
            double At(double share) => sorted[(int)Math.Round(share * (days.Length - 1), MidpointRounding.ToEven)];
            var expected = double.IsInfinity(At(0.5)) ? DateBand.NotExpected
                : new DateBand(Year.DateOf((int)At(0.1)), Year.DateOf((int)At(0.5)), double.IsInfinity(At(0.9)) ? null : Year.DateOf((int)At(0.9)));
            Assert.Equal(expected, DateBand.Of(Year, days));
            Assert.Equal(given, days);
        }
    }

    [Fact]
    public void Of_NoDraws() => Assert.Equal(DateBand.NotExpected, DateBand.Of(Year, []));

    [Fact]
    public void Of_OneDraw() => Assert.Equal(DateBand.On(Year.DateOf(150)), DateBand.Of(Year, [150.99]));

    [Fact]
    public void Of_AnyDraws_InOrder() =>
        Gen.Frequency((5, Gen.Double[0, 480]), (1, Gen.Const(Never))).Array[0, 60].Sample(days =>
        {
            var band = DateBand.Of(Year, [.. days]);
            return band.Likely is null
                ? band == DateBand.NotExpected
                : band.Early <= band.Likely && !(band.Late < band.Likely);
        });
}
