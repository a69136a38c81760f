using System.Globalization;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Phenology.Learning;

/// <summary>
/// Cuttings of 19 species in growth chambers (Flynn and Wolkovich, New Phytologist 219:1353, 2018): days to bud break and leaves under
/// two temperatures, two day lengths and three chills. Each species' threshold is set on one treatment; the others are forecast.
/// </summary>
public sealed class ForcingExperimentTests(ITestOutputHelper output)
{
    private static readonly IndexShape[] Trees = [new(6, 3, 60, 0.005), new(4, 3, 45, 0.005), new(6, 5, 75, 0.005)];
    private static readonly Treatment Reference = new(20, 10, 12, 0, 0);
    private const int LeastCuttings = 3;

    private sealed record Treatment(double DayC, double NightC, double LightHours, int ChillDays, double ChillC);

    private sealed record Result(string Plant, Treatment Treatment, double Observed, double Model);

    // Tolerated is the factor by which the ratio of days may be off: 1.25 for day length; 1.6 for warmth and chill, where the index,
    // made for trees outdoors, takes more of the warmth and less than half of the chill (as logarithms) than these cuttings did.
    [ReferenceTheory]
    [InlineData("budburst")]
    [InlineData("leafout")]
    public void EachCue_ShortensTheDaysWithLikeSize(string phase)
    {
        var results = Results(phase);
        output.WriteLine($"{phase}: {results.Count} means of {LeastCuttings} cuttings or more; ratio of days, geometric mean over species");

        Compare("20/10 against 15/5 C", results, of => of.DayC == 20, of => of with { DayC = 15, NightC = 5 }, 1.6);
        Compare("12 h against 8 h of light", results, of => of.LightHours == 12, of => of with { LightHours = 8 }, 1.25);
        Compare("30 days at 4 C more chill", results, of => of.ChillC == 4, of => of with { ChillDays = 0, ChillC = 0 }, 1.6);
        Compare("30 days at 1.5 C more chill", results, of => of.ChillC == 1.5, of => of with { ChillDays = 0, ChillC = 0 }, 1.6);
    }

    private void Compare(string cue, IReadOnlyList<Result> results, Func<Treatment, bool> with, Func<Treatment, Treatment> without, double tolerance)
    {
        var pairs =
            (from one in results.Where(result => with(result.Treatment))
             join other in results on (one.Plant, without(one.Treatment)) equals (other.Plant, other.Treatment)
             select (Observed: Math.Log(one.Observed / other.Observed), Model: Math.Log(one.Model / other.Model))).ToList();
        double observed = Math.Exp(pairs.Average(pair => pair.Observed)), model = Math.Exp(pairs.Average(pair => pair.Model));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{cue,-28} observed {observed:f2}, index {model:f2}, {pairs.Count} pairs, shorter in {pairs.Count(pair => pair.Observed < 0)} and {pairs.Count(pair => pair.Model < 0)}"));
        Assert.True(pairs.Count > 40);
        Assert.InRange(observed, 0.3, 0.95);
        Assert.InRange(model, 0.3, 0.95);
        Assert.InRange(model / observed, 1 / tolerance, tolerance);
    }

    private static List<Result> Results(string phase)
    {
        var rows = ReferencePhenology.Rows("bud_forcing_experiment", "experiment.csv")
            .Where(row => row[$"days_to_{phase}_mean"] != "" && Number(row[$"n_{phase}"]) >= LeastCuttings)
            .Select(row => (Plant: $"{row["origin"]} {row["species"]}", Treatment: TreatmentOf(row), Days: Number(row[$"days_to_{phase}_mean"])))
            .ToList();
        var chambers = rows.Select(row => row.Treatment).Distinct().ToDictionary(treatment => treatment, Chamber);
        var known = rows.Where(row => row.Treatment == Reference).ToDictionary(row => row.Plant, row => row.Days);
        return [.. rows.Where(row => known.ContainsKey(row.Plant))
            .Select(row => new Result(row.Plant, row.Treatment, row.Days, Forecast(chambers[row.Treatment], chambers[Reference], known[row.Plant])))];
    }

    private static double Forecast(SeasonDrivers chamber, SeasonDrivers reference, double referenceDays) => Trees
        .Average(shape => DevelopmentIndex.Crossing(chamber, shape, 0, DevelopmentIndex.At(reference, shape, 0, referenceDays)));

    // The two months before the cutting are invented and the same for all: they only start the chill model.
    private static SeasonDrivers Chamber(Treatment of)
    {
        const int before = 60, days = 366;
        double[] minC = [.. Enumerable.Repeat(1d, before), .. Enumerable.Repeat(of.ChillC, of.ChillDays), .. Enumerable.Repeat(of.NightC, days)];
        double[] maxC = [.. Enumerable.Repeat(5d, before), .. Enumerable.Repeat(of.ChillC, of.ChillDays), .. Enumerable.Repeat(of.DayC, days)];
        var chill = new double[minC.Length];
        new DynamicModel().StepDays(minC, maxC, chill);
        return SeasonDrivers.Given(new GrowthYear(2015, Hemisphere.North), minC[^days..], maxC[^days..],
            [.. Enumerable.Repeat(of.LightHours / 12, days)], chill[^days..]);
    }

    private static Treatment TreatmentOf(IReadOnlyDictionary<string, string> row) => new(
        Number(row["day_c"]), Number(row["night_c"]), Number(row["photoperiod_h"]), (int)Number(row["extra_chill_days"]),
        row["extra_chill_c"] == "" ? 0 : Number(row["extra_chill_c"]));

    private static double Number(string text) => ReferencePhenology.Number(text);
}
