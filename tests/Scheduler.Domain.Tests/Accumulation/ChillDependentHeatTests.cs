using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class ChillDependentHeatTests
{
    public static TheoryData<PublishedRow> ChillDependent => PublishedTable.Theory("chill-dependent-heat.csv");

    [Theory]
    [MemberData(nameof(ChillDependent))]
    public void Required_FallsWithChill(PublishedRow row) =>
        Assert.Equal(row.Number("required_cd"), new ChillDependentHeat(0, 100, 0.05).RequiredCd(row.Number("chill_days")), 0.005);

    [Fact]
    public void ChillDays_MeanBelowFive()
    {
        var days = new double[4];
        ChillDependentHeat.AccumulateChillDays([0, 0, double.NaN, -4], [10, 9.9, double.NaN, 2], days);
        Assert.Equal([0, 1, 1, 2], days);
    }

    [Fact]
    public void Constructor_IllegalValues_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(-1, 100, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(0, double.NaN, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(0, 100, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChillDependentHeat(0, 100, 0.05).RequiredCd(-1));
    }
}
