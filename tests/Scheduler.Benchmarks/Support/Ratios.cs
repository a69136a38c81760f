using System.Diagnostics;
using System.Globalization;
using Scheduler.Benchmarks.Accumulation;
using Scheduler.Benchmarks.Phenology;
using Scheduler.Benchmarks.Planning;
using Scheduler.Benchmarks.Techniques;
using Scheduler.Domain.Tests.Planning;

namespace Scheduler.Benchmarks.Support;

/// <summary>
/// The figures that have a bar, in some seconds: both sides of a ratio take turns in one process, and the median over many
/// turns counts, so that other work on the machine hits both alike.
/// </summary>
internal static class Ratios
{
    private const int Turns = 101;
    private const int Tiers = 2;
    private const int LeastCalls = 40;
    private static readonly TimeSpan Warming = TimeSpan.FromSeconds(1);

    /// <summary>0 when every figure is within its bar, 1 when not.</summary>
    public static int Print(TextWriter output)
    {
        var isWithin = true;
        if (ScalarC.Library is null)
        {
            output.WriteLine(ScalarC.Absent);
        }
        else
        {
            var chill = new ChillBenchmark();
            Ratio("chill", ChillBenchmark.Bar, () => chill.Tabulated(), () => chill.ScalarInC());
            var degreeDays = new DegreeDaysBenchmark();
            Ratio("degree-days", DegreeDaysBenchmark.Bar, () => degreeDays.SingleSine(), () => degreeDays.ScalarInC());
        }

        SeasonBenchmark few = Season(12), all = Season(SeasonBenchmark.AllSpecies);
        var ms = Timed(() => all.PhaseDates(), () => few.PhaseDates(), () => all.Season()).Select(Median).ToArray();
        Line(
            $"season {ms[0]:0.0} ms (bar {SeasonBenchmark.BarMs:0}): {all.SpeciesCount} species, {SeasonBenchmark.Members} members; {few.SpeciesCount} species {ms[1]:0.0} ms, the weather alone {ms[2]:0.0} ms",
            ms[0] <= SeasonBenchmark.BarMs);
        var advice = new AdviceBenchmark();
        advice.Setup();
        var adviceMs = Timed(() => advice.Advice()).Select(Median).Single();
        Line(
            $"advice {adviceMs:0.0} ms (bar {AdviceBenchmark.BarMs:0}): {AdviceBenchmark.TreeCount} trees, {AdviceBenchmark.TechniqueCount} techniques",
            adviceMs <= AdviceBenchmark.BarMs);

        double[] loads = [0.8, 1.0, 1.3];
        var plans = Timed([.. loads.Select(Plan)]).Select(Median).ToArray();
        Line(
            $"plan {plans.Max():0.0} ms (bar {DayPlannerBenchmark.BarMs:0}): {MadePlan.Visits} visits in {MadePlan.Days} days; at load 0.8, 1.0, 1.3 {plans[0]:0.0}, {plans[1]:0.0}, {plans[2]:0.0} ms",
            plans.Max() <= DayPlannerBenchmark.BarMs);
        return isWithin ? 0 : 1;

        void Ratio(string name, double bar, Action ours, Action inC)
        {
            var us = Timed(ours, inC).Select(turns => turns.Select(ms => 1000 * ms).ToArray()).ToArray();
            var ratio = Median(us[0].Zip(us[1], (our, c) => our / c));
            Line($"{name} ratio {ratio:0.00} (bar {bar:0.00}): ours {Median(us[0]):0} us, scalar C {Median(us[1]):0} us for 30 years", ratio <= bar);
        }

        void Line(FormattableString text, bool within)
        {
            output.WriteLine(text.ToString(CultureInfo.InvariantCulture) + (within ? "" : ": over the bar"));
            isWithin &= within;
        }
    }

    private static Action Plan(double load)
    {
        var plan = new DayPlannerBenchmark { Load = load };
        plan.Setup();
        return () => plan.Plan();
    }

    private static SeasonBenchmark Season(int species)
    {
        var season = new SeasonBenchmark { SpeciesCount = species };
        season.Setup();
        return season;
    }

    private static double[][] Timed(params Action[] sides)
    {
        // Code is counted and compiled anew tier by tier, in the background; on a busy machine a second alone is few calls.
        for (var tier = 0; tier < Tiers; tier++)
        {
            var warm = Stopwatch.StartNew();
            for (var call = 0; call < LeastCalls || warm.Elapsed < Warming; call++)
                Array.ForEach(sides, side => side());
            Thread.Sleep(300);
        }
        var ms = sides.Select(_ => new double[Turns]).ToArray();
        for (var turn = 0; turn < Turns; turn++)
        {
            for (var side = 0; side < sides.Length; side++)
            {
                var start = Stopwatch.GetTimestamp();
                sides[side]();
                ms[side][turn] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            }
        }
        return ms;
    }

    private static double Median(IEnumerable<double> values) => values.Order().ElementAt(Turns / 2);
}
