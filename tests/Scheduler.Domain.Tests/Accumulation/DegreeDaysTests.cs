using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class DegreeDaysTests
{
    public static TheoryData<PublishedRow> Examples => PublishedTable.Theory("degree-days-examples.csv");

    public static TheoryData<PublishedRow> Table => PublishedTable.Theory("degree-days-table.csv");

    [Theory]
    [MemberData(nameof(Examples))]
    public void OfDay_WorkedExample(PublishedRow row)
    {
        var rule = new DegreeDayRule(
            Enum.Parse<DegreeDayMethod>(row.Text("method")),
            row.Number("base"),
            row.NumberIfAny("upper"),
            Enum.Parse<Cutoff>(row.Text("cutoff")));
        var heat = rule.OfDay(row.Number("min"), row.Number("max"), row.NumberIfAny("tomorrow_min") ?? double.NaN);
        Assert.Equal(row.Number("expected"), heat, row.Number("tolerance"));
    }

    [Theory]
    [MemberData(nameof(Table))]
    public void OfDay_EveryMethodAndCutoff(PublishedRow row)
    {
        double min = row.Number("min"), max = row.Number("max"), lower = row.Number("base");
        var upper = row.NumberIfAny("upper");

        Check("SimpleAverage", new DegreeDayRule(DegreeDayMethod.SimpleAverage, lower));
        Check("ModifiedAverage", upper is null
            ? new DegreeDayRule(DegreeDayMethod.ModifiedAverage, lower)
            : new DegreeDayRule(DegreeDayMethod.ModifiedAverage, lower, upper, Cutoff.Horizontal));
        foreach (var (single, twice) in Curves)
        {
            foreach (var cutoff in Enum.GetValues<Cutoff>().Where(cutoff => cutoff is Cutoff.None || upper is not null))
            {
                var limit = cutoff is Cutoff.None ? null : upper;
                Check($"{single}:{cutoff}", new DegreeDayRule(single, lower, limit, cutoff));
                // Between two equal minima the double method is the single one.
                Check($"{single}:{cutoff}", new DegreeDayRule(twice, lower, limit, cutoff));
            }
        }

        void Check(string column, DegreeDayRule rule) => Assert.Equal(row.Number(column), rule.OfDay(min, max, min), 0.00051);
    }

    [Fact]
    public void RunningTotal_OhioExample()
    {
        // Buckeye Yard & Garden Line, Ohio State University, March 2020, published: 43, then 61 °F and 67 °F days with minima below 50 °F.
        var rule = new DegreeDayRule(DegreeDayMethod.ModifiedAverage, 50);
        var total = new double[2];
        rule.Accumulate([40, 40], [61, 67], total);
        Assert.Equal(48.5, 43 + total[0], 1e-9);
        Assert.Equal(57, 43 + total[1], 1e-9);
    }

    [Fact]
    public void Accumulate_MissingDayAddsNothing()
    {
        var total = new double[4];
        DegreeDays.Accumulate([0, double.NaN, 6, 4], [20, double.NaN, 10, 5], 5, total);
        Assert.Equal([5, 5, 8, 8], total);
    }

    [Fact]
    public void Accumulate_IsTheSumOfItsDays()
    {
        double[] minC = [-3, 4, 8, double.NaN, 11, 2], maxC = [6, 13, 19, double.NaN, 31, 9];
        foreach (var method in Enum.GetValues<DegreeDayMethod>())
        {
            var rule = new DegreeDayRule(method, 5);
            var total = new double[minC.Length];
            rule.Accumulate(minC, maxC, total);
            var expected = rule.OfDay(-3, 6, 4) + rule.OfDay(4, 13, 8) + rule.OfDay(8, 19) + rule.OfDay(11, 31, 2) + rule.OfDay(2, 9);
            Assert.Equal(expected, total[^1], 1e-9);
        }
    }

    [Fact]
    public void Accumulate_LengthsDiffer_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => DegreeDays.Accumulate([1, 2], [3], 5, new double[2]));
        Assert.Throws<ArgumentException>(() => DegreeDays.Accumulate([1, 2], [3, 4], 5, new double[1]));
    }

    [Theory]
    [InlineData(DegreeDayMethod.SingleSine, null, Cutoff.Horizontal)]
    [InlineData(DegreeDayMethod.SingleSine, 30.0, Cutoff.None)]
    [InlineData(DegreeDayMethod.SingleSine, 4.0, Cutoff.Vertical)]
    [InlineData(DegreeDayMethod.SimpleAverage, 30.0, Cutoff.Horizontal)]
    [InlineData(DegreeDayMethod.FourCase, 30.0, Cutoff.Vertical)]
    [InlineData(DegreeDayMethod.ModifiedAverage, 30.0, Cutoff.Intermediate)]
    public void Rule_NoSourceDefinesIt_IsRefused(DegreeDayMethod method, double? upperC, Cutoff cutoff) =>
        Assert.ThrowsAny<ArgumentException>(() => new DegreeDayRule(method, 5, upperC, cutoff));

    [Fact]
    public void Intermediate_VeryHotDay_StopsAtZero()
    {
        // 40..50 °C with 5 and 20 °C: 40 above the base, twice 25 above the limit.
        Assert.Equal(0, new DegreeDayRule(DegreeDayMethod.SingleSine, 5, 20, Cutoff.Intermediate).OfDay(40, 50));
    }

    [Fact]
    public void DoubleSine_TomorrowWarmerThanToday_RisesInTheEvening()
    {
        // Half of 8..10 °C above 5 is (9 - 5)/2, half of 10..14 is (12 - 5)/2.
        Assert.Equal(5.5, new DegreeDayRule(DegreeDayMethod.DoubleSine, 5).OfDay(8, 10, 14), 1e-9);
    }

    private static (DegreeDayMethod Single, DegreeDayMethod Twice)[] Curves =>
    [
        (DegreeDayMethod.SingleSine, DegreeDayMethod.DoubleSine),
        (DegreeDayMethod.SingleTriangle, DegreeDayMethod.DoubleTriangle),
    ];
}
