using CsCheck;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology.Learning;

/// <summary>The index looked up in running totals, against the index walked day by day from its definition.</summary>
public class DevelopmentIndexWalkedTests
{
    private static readonly GrowthYear Year = new(2021, Hemisphere.North);

    private static readonly Gen<SeasonDrivers> Seasons =
        Gen.Select(Gen.Double[-2, 16], Gen.Double[-5, 5].Array[Year.Days], Gen.Double[0, 14].Array[Year.Days]).Select((meanC, weatherC, rangeC) =>
        {
            double[] minC = new double[Year.Days], maxC = new double[Year.Days];
            for (var day = 0; day < minC.Length; day++)
            {
                var middleC = meanC - 9 * Math.Cos(2 * Math.PI * (day - 137) / 365) + weatherC[day];
                (minC[day], maxC[day]) = (middleC - rangeC[day] / 2, middleC + rangeC[day] / 2);
            }
            return SeasonDrivers.Of(Year, 50, new TemperatureSeries(Year.ChillStart, minC, maxC));
        });

    private static readonly Gen<IndexShape> Shapes =
        Gen.Select(Gen.Int[0, 10], Gen.Int[0, 3], Gen.Double[0, 0.04]).Select((baseC, power, chillRate) => new IndexShape(baseC, power, 60, chillRate));

    [Fact]
    public void Crossing_IsTheFirstDayOfTheWalk() =>
        Gen.Select(Seasons, Seasons, Shapes, Gen.Int[-1, 400], Gen.Int[0, 250], Gen.Double[0.5, 9])
            .Sample((known, trace, shape, lastDay, startDay, threshold) =>
            {
                var walked = Walked(known, trace, lastDay, shape, startDay, threshold);
                var crossing = DevelopmentIndex.Crossing(known, trace, lastDay, shape, startDay, threshold);
                return walked == crossing || Math.Abs(walked - crossing) < 1e-6;
            }, iter: 300);

    [Fact]
    public void Growth_IsTheMeanOfTheHoursAboveTheBase() => Gen.Select(Seasons, Shapes).Sample((season, shape) =>
    {
        var growth = season.Growth(shape);
        var hours = new double[HourlyCurve.HoursADay];
        for (var day = 0; day < season.Days; day++)
        {
            HourlyCurve.DaySine(season.MinC[day], season.MaxC[day], hours);
            var expected = hours.Average(hourC => Math.Max(0, hourC - shape.BaseC)) * Math.Pow(Math.Max(season.RelativeDayLength[day], 11.0 / 12), shape.DayLengthPower);
            if (Math.Abs(expected - growth[day]) > 1e-9)
                return false;
        }
        return true;
    }, iter: 50);

    private static double Walked(SeasonDrivers known, SeasonDrivers trace, int lastDay, IndexShape shape, int startDay, double threshold)
    {
        double[] growth = known.Growth(shape), later = trace.Growth(shape);
        var end = Math.Min(365, known.Days - 1);
        var join = lastDay < 0 || lastDay > end ? 0 : known.ChillPortions[lastDay] - trace.ChillPortions[lastDay];
        double heat = 0, before = double.NegativeInfinity;
        for (var day = 0; day <= end; day++)
        {
            if (day >= startDay)
                heat += day <= lastDay ? growth[day] : later[day];
            var chill = day <= lastDay ? known.ChillPortions[day] : trace.ChillPortions[day] + join;
            var index = Math.Log(1 + heat) + shape.ChillRate * chill;
            if (index >= threshold && day > 0)
                return index > before ? day - 0.5 + (threshold - before) / (index - before) : day;
            before = index;
        }
        return double.PositiveInfinity;
    }
}
