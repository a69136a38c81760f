using CsCheck;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Tests.PublishedValues;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Accumulation;

public class TabulatedChillTests
{
    // A step of the table is off by less than a hundredth of this.
    private const double Share = 0.001;

    public static TheoryData<PublishedRow> Orchard => OrchardRecord.Checks("portions");

    public static TheoryData<PublishedRow> Constant => PublishedTable.Theory("dynamic-model-constant.csv");

    public static TheoryData<PublishedRow> Cycles => PublishedTable.Theory("dynamic-model-cycles.csv");

    private static Gen<(double[] MinC, double[] MaxC)> Winter =>
        Gen.Select(Gen.Double[-15, 22], Gen.Double[4, 14], Gen.Double[-6, 6].Array[303], Gen.Double[1, 16].Array[303])
            .Select((meanC, swingC, weatherC, rangeC) =>
            {
                double[] minC = new double[weatherC.Length], maxC = new double[weatherC.Length];
                for (var day = 0; day < minC.Length; day++)
                {
                    var middleC = meanC - swingC * Math.Cos(2 * Math.PI * (day - 137) / 365) + weatherC[day];
                    (minC[day], maxC[day]) = (middleC - rangeC[day] / 2, middleC + rangeC[day] / 2);
                }
                return (minC, maxC);
            });

    [Theory]
    [MemberData(nameof(Orchard))]
    public void OrchardRecord_AfterSoManyHours(PublishedRow row)
    {
        var model = new TabulatedChill();
        model.Step(OrchardRecord.FirstHoursC(row));
        Assert.Equal(row.Number("expected"), model.Portions, row.Number("tolerance"));
    }

    [Theory]
    [MemberData(nameof(Constant))]
    public void Portions_ConstantTemperature(PublishedRow row)
    {
        var model = new TabulatedChill();
        for (var hour = 0; hour < 1000; hour++)
            model.Step(row.Number("temperature_c"));
        Assert.Equal(row.Number("after_1000"), model.Portions, 0.00005);
        for (var hour = 0; hour < 1000; hour++)
            model.Step(row.Number("temperature_c"));
        Assert.Equal(row.Number("after_2000"), model.Portions, 0.00005);
    }

    [Theory]
    [MemberData(nameof(Cycles))]
    public void Portions_SixteenColdHoursAndEightWarm(PublishedRow row)
    {
        var model = new TabulatedChill();
        for (var hour = 0; hour < 100 * 24; hour++)
            model.Step(hour % 24 < 16 ? 6 : row.Number("warm_c"));
        Assert.Equal(row.Number("portions"), model.Portions, 0.00005);
    }

    [Fact]
    public void Portions_AnyWinter_StayWithinAFewLumps() => Winter.Sample(winter =>
    {
        var (exact, tabulated) = (new double[winter.MinC.Length], new double[winter.MinC.Length]);
        new DynamicModel().StepDays(winter.MinC, winter.MaxC, exact);
        new TabulatedChill().StepDays(winter.MinC, winter.MaxC, tabulated);
        // Portions are booked in lumps once the precursor reaches its bound. Where it creeps up to it, the table's last digit decides
        // whether a lump is booked before warmth undoes it: about one winter in 150, two lumps in one of 10,000. The sharp
        // comparisons are the published values and the made and real winters below.
        var lump = Enumerable.Range(1, exact.Length - 1).Max(day => exact[day] - exact[day - 1]);
        return Enumerable.Range(0, exact.Length).All(day => Math.Abs(tabulated[day] - exact[day]) <= 3 * Math.Max(1, lump) + Share * exact[day]);
    });

    [Fact]
    public void Portions_OfManyMadeWinters_AreTheExactModels()
    {
        var apart = 0;
        for (var winter = 0; winter < 60; winter++)
        {
            var minC = Enumerable.Range(0, 300).Select(day => 6 - 9 * Math.Sin(day / 300.0 * Math.PI) + 4 * Math.Sin(day * 1.7 + winter) + 2 * Math.Sin(day * 0.31 * (winter + 1))).ToArray();
            var maxC = minC.Select((low, day) => low + 7 + 4 * Math.Sin(day * 0.9 + winter)).ToArray();
            var (exact, tabulated) = (new double[300], new double[300]);
            new DynamicModel().StepDays(minC, maxC, exact);
            new TabulatedChill().StepDays(minC, maxC, tabulated);
            Assert.True(exact[^1] > 10);
            apart += Math.Abs(tabulated[^1] - exact[^1]) > Share * exact[^1] ? 1 : 0;
        }
        Assert.Equal(0, apart);
    }

    [ReferenceFact]
    public void Portions_RealYears_AreTheExactModels()
    {
        var years = 0;
        foreach (var (dataset, site) in new[] { ("cherry_bloom", "kyoto"), ("harvard_forest", "harvard_forest") })
        {
            var days = ReferencePhenology.Weather(dataset, site).FillShortGaps(14);
            for (var year = GrowthYear.Of(days.Start, Hemisphere.North).Next; year.AxisEnd <= days.End; year = year.Next)
            {
                var season = days.Slice(year.ChillStart, year.AxisEnd);
                var (exact, tabulated) = (new double[season.Count], new double[season.Count]);
                new DynamicModel().StepDays(season.MinC, season.MaxC, exact);
                new TabulatedChill().StepDays(season.MinC, season.MaxC, tabulated);
                Assert.True(exact[^1] > 40, $"{site} {year.Year} has hardly any chill.");
                Assert.Equal(exact[^1], tabulated[^1], Share * exact[^1]);
                years++;
            }
        }
        Assert.True(years > 40);
    }

    [Theory]
    [InlineData(-60)]
    [InlineData(-40.01)]
    [InlineData(-40)]
    [InlineData(-12.34)]
    [InlineData(0.025)]
    [InlineData(33.33)]
    [InlineData(59.99)]
    [InlineData(60)]
    [InlineData(70)]
    public void Portions_InsideAndBeyondTheTable_AreTheExactModels(double temperatureC)
    {
        DynamicModel exact = new();
        TabulatedChill tabulated = new();
        for (var hour = 0; hour < 2000; hour++)
        {
            // What an extreme hour built or destroyed shows in the mild hours after it.
            var hourC = hour % 40 < 20 ? temperatureC : 6;
            exact.Step(hourC);
            tabulated.Step(hourC);
            if (hour % 40 == 39)
                Assert.Equal(exact.Portions, tabulated.Portions, 2e-4 * Math.Max(1, exact.Portions));
        }
    }

    [Fact]
    public void StepDays_IsTheHoursOfTheDaySine() => Winter.Sample(winter =>
    {
        TabulatedChill days = new(), hours = new();
        var total = new double[winter.MinC.Length];
        days.StepDays(winter.MinC, winter.MaxC, total);
        var curve = new double[HourlyCurve.HoursADay];
        for (var day = 0; day < total.Length; day++)
        {
            HourlyCurve.DaySine(winter.MinC[day], winter.MaxC[day], curve);
            hours.Step(curve);
            // The two halves of the sine differ in the last digit.
            if (Math.Abs(hours.Portions - total[day]) > 1e-9)
                return false;
        }
        return true;
    });

    [Fact]
    public void Copy_ResumesAsIfNeverInterrupted() => Gen.Select(Winter, Gen.Int[0, 303]).Sample((winter, split) =>
    {
        double[] whole = new double[winter.MinC.Length], parts = new double[winter.MinC.Length], again = new double[winter.MinC.Length];
        var through = new TabulatedChill();
        through.StepDays(winter.MinC, winter.MaxC, whole);

        var saved = new TabulatedChill();
        saved.StepDays(winter.MinC.AsSpan(0, split), winter.MaxC.AsSpan(0, split), parts.AsSpan(0, split));
        var (first, second) = (saved, saved);
        first.StepDays(winter.MinC.AsSpan(split), winter.MaxC.AsSpan(split), parts.AsSpan(split));
        second.StepDays(winter.MinC.AsSpan(split), winter.MaxC.AsSpan(split), again.AsSpan(split));
        return first == through && second == through && whole.SequenceEqual(parts) && again.AsSpan(split).SequenceEqual(whole.AsSpan(split));
    });

    [Theory]
    [InlineData(6)]
    [InlineData(-12)]
    public void Step_MissingHoursLeaveEverythingAsItWas(double temperatureC)
    {
        TabulatedChill with = new(), without = new();
        for (var hour = 0; hour < 3000; hour++)
        {
            with.Step(temperatureC);
            without.Step(temperatureC);
            if (hour % 100 == 50)
                with.Step([double.NaN, double.NaN, double.NaN]);
        }
        Assert.Equal(without, with);
        Assert.True(with.Portions > 0);
    }

    [Fact]
    public void StepDays_MissingDay_IsTheExactModels()
    {
        double[] minC = [1, 2, double.NaN, 3, 0, -20, -25, double.NaN, 2], maxC = [9, 11, double.NaN, 12, 8, -15, -20, double.NaN, 8];
        double[] exact = new double[minC.Length], tabulated = new double[minC.Length];
        new DynamicModel().StepDays(minC, maxC, exact);
        new TabulatedChill().StepDays(minC, maxC, tabulated);
        Assert.True(exact[^1] > 2);
        Assert.All(exact.Zip(tabulated), pair => Assert.Equal(pair.First, pair.Second, 1e-4));
    }

    [Fact]
    public void StepDays_OtherLengths_AreRefused() =>
        Assert.Throws<ArgumentException>(() => new TabulatedChill().StepDays([1, 2], [3, 4], new double[3]));
}
