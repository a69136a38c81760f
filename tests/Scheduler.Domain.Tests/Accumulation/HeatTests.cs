using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

/// <summary>Growing degree hours, chill-dependent heat and conversions.</summary>
public class HeatTests
{
    public static TheoryData<PublishedRow> DegreeHours => PublishedTable.Theory("growing-degree-hours.csv");

    public static TheoryData<PublishedRow> ChillDependent => PublishedTable.Theory("chill-dependent-heat.csv");

    public static TheoryData<PublishedRow> HeatSums => PublishedTable.Theory("degree-day-units.csv");

    public static TheoryData<PublishedRow> BudKill => PublishedTable.Theory("bud-kill-temperatures.csv");

    [Theory]
    [MemberData(nameof(DegreeHours))]
    public void GrowingDegreeHours_OfHour(PublishedRow row)
    {
        var expected = row.Number("expected");
        Assert.Equal(expected, GrowingDegreeHours.OfHour(row.Number("temperature_c")), 0.00005);
        Assert.Equal(3 * expected, GrowingDegreeHours.Sum([.. Enumerable.Repeat(row.Number("temperature_c"), 3), double.NaN]), 0.00015);
    }

    [Theory]
    [InlineData(-10)]
    [InlineData(45)]
    [InlineData(double.NaN)]
    public void GrowingDegreeHours_OutsideItsRange_IsZero(double temperatureC) =>
        Assert.Equal(0, GrowingDegreeHours.OfHour(temperatureC));

    [Theory]
    [MemberData(nameof(ChillDependent))]
    public void ChillDependentHeat_Required(PublishedRow row) =>
        Assert.Equal(row.Number("required_cd"), new ChillDependentHeat(0, 100, 0.05).RequiredCd(row.Number("chill_days")), 0.005);

    [Fact]
    public void ChillDays_MeanBelowFive()
    {
        var days = new double[4];
        ChillDependentHeat.AccumulateChillDays([0, 0, double.NaN, -4], [10, 9.9, double.NaN, 2], days);
        Assert.Equal([0, 1, 1, 2], days);
    }

    [Fact]
    public void ChillDependentHeat_IllegalValues_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(-1, 100, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(0, double.NaN, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(0, 100, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(0, 100, 0.05).RequiredCd(-1));
    }

    [Theory]
    [MemberData(nameof(HeatSums))]
    public void Fahrenheit_HeatSum(PublishedRow row) =>
        Assert.Equal(row.Number("heat_cd"), Fahrenheit.DegreeDaysToCd(row.Number("heat_fd")), 0.5);

    [Theory]
    [MemberData(nameof(BudKill))]
    public void Fahrenheit_BudKillTemperature(PublishedRow row) =>
        Assert.Equal(row.Number("temperature_c"), Fahrenheit.ToC(row.Number("temperature_f")), 0.0501);
}
