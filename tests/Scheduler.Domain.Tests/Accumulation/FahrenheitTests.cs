using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class FahrenheitTests
{
    public static TheoryData<PublishedRow> HeatSums => PublishedTable.Theory("degree-day-units.csv");

    public static TheoryData<PublishedRow> BudKill => PublishedTable.Theory("bud-kill-temperatures.csv");

    [Theory]
    [MemberData(nameof(HeatSums))]
    public void HeatSum(PublishedRow row) =>
        Assert.Equal(row.Number("heat_cd"), Fahrenheit.DegreeDaysToCd(row.Number("heat_fd")), 0.5);

    [Theory]
    [MemberData(nameof(BudKill))]
    public void BudKillTemperature(PublishedRow row) =>
        Assert.Equal(row.Number("temperature_c"), Fahrenheit.ToC(row.Number("temperature_f")), 0.0501);
}
