using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class UtahChillTests
{
    public static TheoryData<PublishedRow> Orchard => OrchardRecord.Checks("utah");

    public static TheoryData<PublishedRow> UtahUnits => PublishedTable.Theory("utah-units.csv");

    [Theory]
    [MemberData(nameof(Orchard))]
    public void OrchardRecord_AfterSoManyHours(PublishedRow row)
    {
        Assert.Equal(row.Number("expected"), UtahChill.Sum(OrchardRecord.FirstHoursC(row)), row.Number("tolerance"));
    }

    [Theory]
    [MemberData(nameof(UtahUnits))]
    public void OfHour_IntervalIsOpenBelowAndClosedAbove(PublishedRow row)
    {
        var units = row.Number("units");
        Assert.Equal(units, UtahChill.OfHour(Math.BitIncrement(row.NumberIfAny("above_c") ?? -40)));
        Assert.Equal(units, UtahChill.OfHour(row.NumberIfAny("to_c") ?? 50));
    }

    [Fact]
    public void Sum_MissingHourCountsNothing() => Assert.Equal(1, UtahChill.Sum([5, double.NaN]));
}
