using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

/// <summary>Chill hours and Utah units, and all three models against one orchard record.</summary>
public class ChillTests
{
    public static TheoryData<PublishedRow> RecordChecks => PublishedTable.Theory("chill-record-checks.csv");

    public static TheoryData<PublishedRow> UtahUnits => PublishedTable.Theory("utah-units.csv");

    [Theory]
    [MemberData(nameof(RecordChecks))]
    public void OrchardRecord_AfterSoManyHours(PublishedRow row)
    {
        var hourlyC = PublishedTable.Rows("chill-record-hours.csv").Select(hour => hour.Number("temperature_c"))
            .Take(row.Whole("hour")).ToArray();
        var model = new DynamicModel();
        model.Step(hourlyC);
        var actual = row.Text("measure") switch
        {
            "chill-hours" => ChillHours.AboveFreezing(hourlyC),
            "utah" => UtahChill.Sum(hourlyC),
            "portions" => model.Portions,
            var other => throw new InvalidOperationException(other),
        };
        Assert.Equal(row.Number("expected"), actual, row.Number("tolerance"));
    }

    [Theory]
    [MemberData(nameof(UtahUnits))]
    public void Utah_IntervalIsOpenBelowAndClosedAbove(PublishedRow row)
    {
        var units = row.Number("units");
        Assert.Equal(units, UtahChill.OfHour(Math.BitIncrement(row.NumberIfAny("above_c") ?? -40)));
        Assert.Equal(units, UtahChill.OfHour(row.NumberIfAny("to_c") ?? 50));
    }

    [Fact]
    public void ChillHours_TheTwoDefinitionsDifferAtTheirEnds()
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

    [Fact]
    public void Utah_MissingHourCountsNothing() => Assert.Equal(1, UtahChill.Sum([5, double.NaN]));
}
