using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Accumulation;

public class ReferenceEvapotranspirationTests
{
    public static TheoryData<PublishedRow> Steps => PublishedTable.Theory("evapotranspiration-steps.csv");

    public static TheoryData<PublishedRow> Days => PublishedTable.Theory("evapotranspiration-days.csv");

    [Theory]
    [MemberData(nameof(Steps))]
    public void Step_WorkedExample(PublishedRow row)
    {
        var x = row.Numbers("inputs");
        var actual = row.Text("quantity") switch
        {
            "air-pressure" => VaporPressure.AirPressure(x[0]),
            "psychrometric-constant" => VaporPressure.PsychrometricConstant(x[0]),
            "mean-saturation" => VaporPressure.MeanSaturation(x[0], x[1]),
            "actual-from-psychrometer" => VaporPressure.ActualFromPsychrometer(x[0], x[1], x[2]),
            "actual-from-humidities" => VaporPressure.ActualFromHumidities(x[0], x[1], x[2], x[3]),
            "actual-from-highest-humidity" => VaporPressure.ActualFromHighestHumidity(x[0], x[1]),
            "actual-from-mean-humidity" => VaporPressure.ActualFromMeanHumidity(x[0], x[1], x[2]),
            "actual-from-minimum" => VaporPressure.ActualFromMinimum(x[0]),
            "inverse-distance" => SolarRadiation.InverseDistance((int)x[0]),
            "declination" => DayLength.SolarDeclination((int)x[0]),
            "sunset-hour-angle" => DayLength.SunsetHourAngle(x[0], DayLength.SolarDeclination((int)x[1])),
            "day-length" => DayLength.FaoHours(x[0], (int)x[1]),
            "extraterrestrial" => SolarRadiation.Extraterrestrial(x[0], (int)x[1]),
            "clear-sky" => SolarRadiation.ClearSky(x[0], x[1]),
            "solar-from-sunshine" => SolarRadiation.FromSunshine(x[0], x[1], x[2]),
            "solar-from-range" => SolarRadiation.FromTemperatureRange(x[0], x[1], x[2]),
            "net-longwave" => SolarRadiation.NetLongwave(x[0], x[1], x[2], x[3], x[4]),
            "monthly-soil-heat" => ReferenceEvapotranspiration.MonthlySoilHeat(x[0], x[1]),
            "wind-at-2m" => ReferenceEvapotranspiration.WindAt2M(x[0], x[1]),
            "penman-monteith" => ReferenceEvapotranspiration.PenmanMonteith(x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7]),
            "hargreaves" => ReferenceEvapotranspiration.Hargreaves(x[0], x[1], x[2]),
            var other => throw new InvalidOperationException(other),
        };
        Assert.Equal(row.Number("expected"), actual, row.Number("tolerance"));
    }

    [Theory]
    [MemberData(nameof(Days))]
    public void WholeDay_WorkedExample(PublishedRow row)
    {
        var day = row.Text("day") == "uccle" ? Uccle() : Lyon();
        Assert.Equal(row.Number("expected"), day[row.Text("quantity")], row.Number("tolerance"));
    }

    [Fact]
    public void Hargreaves_DeepFrost_IsNotNegative() => Assert.Equal(0, ReferenceEvapotranspiration.Hargreaves(-40, -30, 2));

    private static Dictionary<string, double> Uccle()
    {
        const int dayOfYear = 187;
        var extraterrestrial = SolarRadiation.Extraterrestrial(50.80, dayOfYear);
        var dayLength = DayLength.FaoHours(50.80, dayOfYear);
        return Whole(
            minC: 12.3,
            maxC: 21.5,
            elevationM: 100,
            extraterrestrial,
            SolarRadiation.FromSunshine(9.25, dayLength, extraterrestrial),
            VaporPressure.ActualFromHumidities(VaporPressure.Saturation(12.3), VaporPressure.Saturation(21.5), 84, 63),
            ReferenceEvapotranspiration.WindAt2M(2.78, 10),
            dayLength);
    }

    private static Dictionary<string, double> Lyon()
    {
        const int dayOfYear = 196;
        var extraterrestrial = SolarRadiation.Extraterrestrial(45.72, dayOfYear);
        return Whole(
            minC: 14.8,
            maxC: 26.6,
            elevationM: 200,
            extraterrestrial,
            SolarRadiation.FromTemperatureRange(14.8, 26.6, extraterrestrial),
            VaporPressure.ActualFromMinimum(14.8),
            windAt2M: 2,
            DayLength.FaoHours(45.72, dayOfYear));
    }

    private static Dictionary<string, double> Whole(
        double minC,
        double maxC,
        double elevationM,
        double extraterrestrial,
        double solar,
        double actualKPa,
        double windAt2M,
        double dayLength)
    {
        var meanC = (minC + maxC) / 2;
        var clearSky = SolarRadiation.ClearSky(elevationM, extraterrestrial);
        var netLongwave = SolarRadiation.NetLongwave(minC, maxC, actualKPa, solar, clearSky);
        var netRadiation = SolarRadiation.NetShortwave(solar) - netLongwave;
        var slope = VaporPressure.SaturationSlope(meanC);
        var psychrometric = VaporPressure.PsychrometricConstant(VaporPressure.AirPressure(elevationM));
        return new Dictionary<string, double>
        {
            ["extraterrestrial"] = extraterrestrial,
            ["day-length"] = dayLength,
            ["clear-sky"] = clearSky,
            ["solar"] = solar,
            ["actual-vapor"] = actualKPa,
            ["slope"] = slope,
            ["psychrometric"] = psychrometric,
            ["wind"] = windAt2M,
            ["net-longwave"] = netLongwave,
            ["net-radiation"] = netRadiation,
            ["et0"] = ReferenceEvapotranspiration.PenmanMonteith(
                netRadiation, 0, meanC, windAt2M, VaporPressure.MeanSaturation(minC, maxC), actualKPa, slope, psychrometric),
        };
    }
}
