using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class ChillHoursTests
{
    public static TheoryData<PublishedRow> Orchard => OrchardRecord.Checks("chill-hours");

    [Theory]
    [MemberData(nameof(Orchard))]
    public void OrchardRecord_AfterSoManyHours(PublishedRow row)
    {
        Assert.Equal(row.Whole("expected"), ChillHours.AboveFreezing(OrchardRecord.FirstHoursC(row)));
    }

    [Fact]
    public void TheTwoDefinitionsDifferAtTheirEnds()
    {
        // Both definitions as Luedeling et al., R package chillR, and Dave Wilson Nursery state them; hours chosen here.
        double[] hourlyC = [-0.1, 0, 7.19, 7.2, 7.21, double.NaN];
        Assert.Equal(3, ChillHours.Below(hourlyC));
        Assert.Equal(3, ChillHours.AboveFreezing(hourlyC));
        Assert.Equal(1, ChillHours.Below([-20]));
        Assert.Equal(0, ChillHours.AboveFreezing([-20]));
        Assert.Equal(0, ChillHours.Below([7.2]));
        Assert.Equal(1, ChillHours.AboveFreezing([7.2]));
    }
}
