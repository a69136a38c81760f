using CsCheck;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class HourlyCurveTests
{
    [Fact]
    public void DaySine_MinimumAtTwoAndMaximumAtFourteen()
    {
        var hours = new double[24];
        HourlyCurve.DaySine(-3.7, 12.9, hours);
        Assert.Equal(-3.7, hours[2]);
        Assert.Equal(12.9, hours[14], 1e-12);
        Assert.Equal(2, Array.IndexOf(hours, hours.Min()));
        Assert.Equal(14, Array.IndexOf(hours, hours.Max()));
        Assert.Equal((-3.7 + 12.9) / 2, hours[8], 1e-12);
        Assert.Equal((-3.7 + 12.9) / 2, hours.Average(), 1e-12);
    }

    [Fact]
    public void DaySine_MissingDay_IsMissing()
    {
        var hours = new double[24];
        HourlyCurve.DaySine(double.NaN, double.NaN, hours);
        Assert.All(hours, hour => Assert.True(double.IsNaN(hour)));
    }

    // 0.1 °C is this project's requirement, an estimate; the form is Linvill's (HortScience 25:14-16, 1990, from memory).
    [Fact]
    public void SineAndDecay_ReproducesBothExtremes() =>
        Gen.Select(Gen.Double[-65, 65], Gen.Int[1, 366], Days, Days, Gen.Double[-30, 25]).Sample((latitude, dayOfYear, yesterday, today, nextC) =>
        {
            var hours = new double[24];
            HourlyCurve.SineAndDecay(yesterday, today, nextC, DayLength.ForsytheHours(latitude, dayOfYear), hours);
            return Math.Abs(hours.Min() - today.MinC) < 0.1 && Math.Abs(hours.Max() - today.MaxC) < 0.1;
        });

    [Theory]
    [InlineData(0)]
    [InlineData(23)]
    [InlineData(24)]
    public void SineAndDecay_PolarDayAndNight_StillReproduces(double dayLengthHours)
    {
        var hours = new double[24];
        HourlyCurve.SineAndDecay((2, 10), (1, 12), 0, dayLengthHours, hours);
        Assert.Equal(1, hours.Min(), 1e-9);
        Assert.Equal(12, hours.Max(), 1e-9);
    }

    [Fact]
    public void SineAndDecay_TwelveHourDay_ByHand()
    {
        // Sunrise 6, sunset 18. By day t = 2: 10·sin(2π/16) = 3.8268. Sunset: 10·sin(12π/16) = 7.0711.
        // Night, t = 4: 7.0711·(1 - ln 4/ln 12) = 3.1262. Before dawn, t = 10: 7.0711·(1 - ln 10/ln 12) = 0.5188.
        var hours = new double[24];
        HourlyCurve.SineAndDecay((0, 10), (0, 10), 0, 12, hours);
        Assert.Equal(0, hours[6]);
        Assert.Equal(3.8268, hours[8], 0.00005);
        Assert.Equal(10, hours[14], 1e-12);
        Assert.Equal(7.0711, hours[18], 0.00005);
        Assert.Equal(7.0711, hours[19], 0.00005);
        Assert.Equal(3.1262, hours[22], 0.00005);
        Assert.Equal(0.5188, hours[4], 0.00005);
    }

    [Fact]
    public void Curves_OtherThan24Hours_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => HourlyCurve.DaySine(1, 2, new double[23]));
        Assert.Throws<ArgumentException>(() => HourlyCurve.SineAndDecay((1, 2), (1, 2), 1, 12, new double[25]));
    }

    private static readonly Gen<(double MinC, double MaxC)> Days =
        from minC in Gen.Double[-30, 25]
        from rangeC in Gen.Double[0, 25]
        select (minC, minC + rangeC);
}
