namespace Scheduler.Domain.Phenology;

/// <summary>
/// The site's first autumn frost (minimum at or below 0 C after midsummer), from its past years, and the heat that
/// normally still comes before it. Everything that must harden before winter is counted back from here.
/// </summary>
public sealed class FrostOutlook
{
    private const double FrostC = 0;
    private readonly double[] _heat5;
    private readonly double[] _heat10;

    private FrostOutlook(double? averageDay, double? cautiousDay, double[] heat5, double[] heat10)
    {
        AverageDay = averageDay;
        CautiousDay = cautiousDay;
        _heat5 = heat5;
        _heat10 = heat10;
    }

    /// <summary>Mean axis day of the first autumn frost; null where most years have none.</summary>
    public double? AverageDay { get; }
    /// <summary>10th percentile of the same over all years, those without frost being late; null where most years have none.</summary>
    public double? CautiousDay { get; }

    /// <summary>Heat normally still to come between a day and the end day, above base 5 or 10 [C*d].</summary>
    public double RemainingCd(int baseC, double fromDay, double toDay)
    {
        var total = baseC == 10 ? _heat10 : _heat5;
        return Math.Max(0, SeasonMember.HeatAt(total, toDay) - SeasonMember.HeatAt(total, fromDay));
    }

    internal static FrostOutlook Of(SeasonEnsemble season)
    {
        var years = season.Normals.Count > 0 ? season.Normals : season.Members;
        if (years.Count == 0)
            return new FrostOutlook(null, null, [], []);
        var first = years.Select(year => FirstFrost(year, season.Year.MidsummerDay)).OfType<double>().Order().ToList();
        var usual = first.Count * 2 > years.Count;
        return new FrostOutlook(
            usual ? first.Average() : null,
            usual ? first[(int)Math.Round(0.1 * (years.Count - 1))] : null,
            Mean(years, year => year.Heat5Cd),
            Mean(years, year => year.Heat10Cd));
    }

    private static double? FirstFrost(SeasonMember year, int midsummer)
    {
        for (var day = midsummer; day < year.Days; day++)
        {
            if (year.MinC[day] <= FrostC)
                return day;
        }
        return null;
    }

    private static double[] Mean(IReadOnlyList<SeasonMember> years, Func<SeasonMember, double[]> total)
    {
        var mean = new double[years[0].Days];
        foreach (var year in years)
        {
            var values = total(year);
            for (var day = 0; day < mean.Length; day++)
                mean[day] += values[day] / years.Count;
        }
        return mean;
    }
}
