using Scheduler.Domain.Tests.PublishedValues;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class DayLengthTests
{
    public static TheoryData<PublishedRow> Table => PublishedTable.Theory("day-length.csv");

    [Theory]
    [MemberData(nameof(Table))]
    public void Hours_ByBothModels(PublishedRow row)
    {
        var latitude = row.Number("latitude");
        var dayOfYear = row.Whole("day_of_year");
        Assert.Equal(row.Number("cbm_center"), DayLength.ForsytheHours(latitude, dayOfYear, DayLength.SunCenterDegrees), 0.00005);
        Assert.Equal(row.Number("cbm_almanac"), DayLength.ForsytheHours(latitude, dayOfYear), 0.00005);
        Assert.Equal(row.Number("fao"), DayLength.FaoHours(latitude, dayOfYear), 0.00005);
    }

    [Fact]
    public void Hours_PolarDayAndNight()
    {
        foreach (var latitude in new[] { 75.0, 90, -90 })
        {
            var (light, dark) = latitude > 0 ? (172, 355) : (355, 172);
            Assert.Equal(24, DayLength.ForsytheHours(latitude, light));
            Assert.Equal(0, DayLength.ForsytheHours(latitude, dark));
            Assert.Equal(24, DayLength.FaoHours(latitude, light));
            Assert.Equal(0, DayLength.FaoHours(latitude, dark));
        }
    }

    [Fact]
    public void Hours_FurtherBelowTheHorizon_IsLonger()
    {
        var p = new[] { DayLength.SunCenterDegrees, DayLength.SunTopDegrees, DayLength.AlmanacDegrees, 6, 12, 18 };
        var hours = p.Select(degrees => DayLength.ForsytheHours(45, 100, degrees)).ToArray();
        Assert.Equal(hours.Order().Distinct(), hours);
    }

    [Theory]
    [InlineData(91, 100)]
    [InlineData(double.NaN, 100)]
    [InlineData(45, 0)]
    [InlineData(45, 367)]
    public void Hours_OutsideTheEarthOrTheYear_AreRefused(double latitude, int dayOfYear)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DayLength.ForsytheHours(latitude, dayOfYear));
        Assert.Throws<ArgumentOutOfRangeException>(() => DayLength.FaoHours(latitude, dayOfYear));
    }
}
