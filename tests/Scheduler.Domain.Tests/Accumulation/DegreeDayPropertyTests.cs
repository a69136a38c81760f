using CsCheck;
using Scheduler.Domain.Accumulation;

namespace Scheduler.Domain.Tests.Accumulation;

public class DegreeDayPropertyTests
{
    private static readonly Gen<(double MinC, double MaxC, double NextC)> Days =
        from minC in Gen.Double[-40, 35]
        from rangeC in Gen.Double[0, 25]
        from nextC in Gen.Double[-40, 35]
        select (minC, minC + rangeC, nextC);

    private static readonly Gen<DegreeDayRule> Rules =
        from method in Gen.Enum<DegreeDayMethod>()
        from baseC in Gen.Double[-5, 15]
        from span in Gen.Double[1, 30]
        from cutoff in Gen.Enum<Cutoff>()
        select Rule(method, baseC, baseC + span, cutoff);

    [Fact]
    public void OfDay_NeverNegative() =>
        Gen.Select(Rules, Days).Sample((rule, day) => rule.OfDay(day.MinC, day.MaxC, day.NextC) >= 0);

    [Fact]
    public void OfDay_SineAndTriangleAtLeastSimple() =>
        Gen.Select(Days, Gen.Double[-5, 15]).Sample((day, baseC) =>
        {
            var simple = DegreeDays.SimpleAverage(day.MinC, day.MaxC, baseC);
            return DailyCurve.SineAbove(day.MinC, day.MaxC, baseC) >= simple - 1e-9
                && DailyCurve.TriangleAbove(day.MinC, day.MaxC, baseC) >= simple - 1e-9;
        });

    // Intermediate and vertical cutoffs are meant to take warmth away on hotter days, so they are left out.
    [Fact]
    public void OfDay_HigherMaximum_NeverLess() =>
        Gen.Select(Rules.Where(rule => rule.Cutoff is Cutoff.None or Cutoff.Horizontal), Days, Gen.Double[0, 15]).Sample((rule, day, addC) =>
            rule.OfDay(day.MinC, day.MaxC + addC, day.NextC) >= rule.OfDay(day.MinC, day.MaxC, day.NextC) - 1e-9);

    [Fact]
    public void OfDay_AnyCutoff_NeverMoreThanNone() =>
        Gen.Select(Rules.Where(rule => rule.UpperC is not null), Days).Sample((rule, day) =>
            rule.OfDay(day.MinC, day.MaxC, day.NextC)
            <= new DegreeDayRule(rule.Method, rule.BaseC).OfDay(day.MinC, day.MaxC, day.NextC) + 1e-9);

    [Fact]
    public void Accumulate_NeverFalls() =>
        Gen.Select(Rules, Days.Array[1, 60]).Sample((rule, days) =>
        {
            var total = new double[days.Length];
            rule.Accumulate([.. days.Select(day => day.MinC)], [.. days.Select(day => day.MaxC)], total);
            return total.Zip(total.Skip(1)).All(pair => pair.Second >= pair.First);
        });

    private static DegreeDayRule Rule(DegreeDayMethod method, double baseC, double upperC, Cutoff cutoff) => method switch
    {
        DegreeDayMethod.SimpleAverage or DegreeDayMethod.FourCase => new(method, baseC),
        DegreeDayMethod.ModifiedAverage when cutoff is not Cutoff.None => new(method, baseC, upperC, Cutoff.Horizontal),
        _ => new(method, baseC, cutoff is Cutoff.None ? null : upperC, cutoff),
    };
}
