using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class GrowingDegreeHoursTests
{
    public static TheoryData<PublishedRow> DegreeHours => PublishedTable.Theory("growing-degree-hours.csv");

    [Theory]
    [MemberData(nameof(DegreeHours))]
    public void OfHour_AlongTheCurve(PublishedRow row)
    {
        var expected = row.Number("expected");
        Assert.Equal(expected, GrowingDegreeHours.OfHour(row.Number("temperature_c")), 0.00005);
        Assert.Equal(3 * expected, GrowingDegreeHours.Sum([.. Enumerable.Repeat(row.Number("temperature_c"), 3), double.NaN]), 0.00015);
    }

    [Theory]
    [InlineData(-10)]
    [InlineData(45)]
    [InlineData(double.NaN)]
    public void OfHour_OutsideItsRange_IsZero(double temperatureC) =>
        Assert.Equal(0, GrowingDegreeHours.OfHour(temperatureC));
}
