using CsCheck;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Accumulation;

public class DynamicModelTests
{
    public static TheoryData<PublishedRow> Constant => PublishedTable.Theory("dynamic-model-constant.csv");

    public static TheoryData<PublishedRow> Cycles => PublishedTable.Theory("dynamic-model-cycles.csv");

    [Theory]
    [MemberData(nameof(Constant))]
    public void Portions_ConstantTemperature(PublishedRow row)
    {
        var model = new DynamicModel();
        var after1000 = 0.0;
        var steps = new List<int>();
        for (var hour = 1; hour <= 2000; hour++)
        {
            var before = model.Portions;
            model.Step(row.Number("temperature_c"));
            if (model.Portions - before >= 0.5)
                steps.Add(hour);
            if (hour == 1000)
                after1000 = model.Portions;
        }

        Assert.Equal(row.Number("after_1000"), after1000, 0.00005);
        Assert.Equal(row.Number("after_2000"), model.Portions, 0.00005);
        if (row.NumberIfAny("first_step_hour") is not { } first)
            Assert.Empty(steps);
        else
            Assert.Equal(first, steps[0]);
        if (row.NumberIfAny("step_every_hours") is { } every)
            Assert.All(steps.Zip(steps.Skip(1)), pair => Assert.Equal(every, pair.Second - pair.First));
    }

    [Theory]
    [MemberData(nameof(Cycles))]
    public void Portions_SixteenColdHoursAndEightWarm(PublishedRow row)
    {
        var model = new DynamicModel();
        for (var hour = 0; hour < 100 * 24; hour++)
            model.Step(hour % 24 < 16 ? 6 : row.Number("warm_c"));
        Assert.Equal(row.Number("portions"), model.Portions, 0.00005);
    }

    [Fact]
    public void Portions_NeverDecrease() => Gen.Double[-20, 35].Array[1, 400].Sample(hourlyC =>
    {
        var model = new DynamicModel();
        foreach (var temperatureC in hourlyC)
        {
            var before = model.Portions;
            model.Step(temperatureC);
            if (!(model.Portions >= before))
                return false;
        }
        return true;
    });

    [Fact]
    public void Copy_ResumesAsIfNeverInterrupted() =>
        Gen.Select(Gen.Double[-5, 18].Array[1, 300], Gen.Double[-5, 18].Array[1, 300]).Sample((first, second) =>
        {
            var whole = new DynamicModel();
            whole.Step([.. first, .. second]);
            var saved = new DynamicModel();
            saved.Step(first);
            var resumed = saved;
            resumed.Step(second);
            var again = saved;
            again.Step(second);
            return resumed == whole && again == whole;
        });

    [Fact]
    public void Step_MissingHoursLeaveEverythingAsItWas()
    {
        DynamicModel with = new(), without = new();
        for (var hour = 0; hour < 500; hour++)
        {
            with.Step(6);
            without.Step(6);
            if (hour % 100 == 50)
                with.Step([double.NaN, double.NaN, double.NaN]);
        }
        Assert.Equal(without, with);
        Assert.True(with.Portions > 10);
    }

    [Fact]
    public void StepDays_IsTheHoursOfTheDaySine()
    {
        double[] minC = [1, 2, double.NaN, 3, 0], maxC = [9, 11, double.NaN, 12, 8];
        var days = new DynamicModel();
        var total = new double[minC.Length];
        days.StepDays(minC, maxC, total);

        var hours = new DynamicModel();
        var curve = new double[24];
        for (var day = 0; day < minC.Length; day++)
        {
            HourlyCurve.DaySine(minC[day], maxC[day], curve);
            hours.Step(curve);
            Assert.Equal(hours.Portions, total[day]);
        }
        Assert.Equal(hours, days);
        Assert.True(days.Portions > 1);
    }
}
