using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Pages.Charts;

namespace Scheduler.Service.Pages.Season;

/// <summary>What gathered by the end of each day, this year and in normal years: heat [C*d above 5] or chill [portions].</summary>
/// <param name="Low">10th percentile of the past years; empty while none is known.</param>
/// <param name="Middle">Their median.</param>
/// <param name="High">Their 90th percentile.</param>
/// <param name="ThisYear">As far as days are known or forecast.</param>
/// <param name="SeenDays">How many of these days are over.</param>
public sealed record SeasonCurve(DayAxis Axis, double[] Low, double[] Middle, double[] High, double[] ThisYear, int SeenDays)
{
    public bool HasForecast => ThisYear.Length > SeenDays;

    /// <summary>The last day that is known or forecast.</summary>
    public LocalDate Until => Axis.First.PlusDays(Math.Max(0, ThisYear.Length - 1));

    public double Highest => Math.Max(High.Length > 0 ? High[^1] : 0, ThisYear.Length > 0 ? ThisYear[^1] : 0);

    /// <summary>Heat from 1 January (1 July) to the end of the growth year's axis.</summary>
    public static SeasonCurve Heat(SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        return Of(season, season.Year.HeatStartDay, season.Year.Days - 1, member => member.Heat5Cd);
    }

    /// <summary>Chill from 1 September (1 March) to midsummer.</summary>
    public static SeasonCurve Chill(SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        return Of(season, 0, season.Year.MidsummerDay - 1, member => member.ChillPortions);
    }

    private static SeasonCurve Of(SeasonEnsemble season, int first, int last, Func<SeasonMember, double[]> total)
    {
        var count = last - first + 1;
        var (low, middle, high) = (new double[count], new double[count], new double[count]);
        var years = new double[season.Normals.Count];
        for (var day = 0; day < count && years.Length > 0; day++)
        {
            for (var year = 0; year < years.Length; year++)
                years[year] = Gathered(total(season.Normals[year]), first, day);
            Array.Sort(years);
            (low[day], middle[day], high[day]) = (At(years, 0.1), At(years, 0.5), At(years, 0.9));
        }
        var known = season.HasWeather ? Math.Clamp(season.KnownDays - first, 0, count) : 0;
        var thisYear = new double[known];
        for (var day = 0; day < known; day++)
            thisYear[day] = season.Members.Average(member => Gathered(total(member), first, day));
        var axis = new DayAxis(season.Year.DateOf(first), season.Year.DateOf(last));
        return years.Length == 0
            ? new SeasonCurve(axis, [], [], [], thisYear, Math.Clamp(season.TodayDay - first, 0, known))
            : new SeasonCurve(axis, low, middle, high, thisYear, Math.Clamp(season.TodayDay - first, 0, known));
    }

    private static double Gathered(double[] total, int first, int day) => SeasonMember.HeatAt(total, first + day + 1) - SeasonMember.HeatAt(total, first);

    private static double At(double[] sorted, double share) => sorted[(int)Math.Round(share * (sorted.Length - 1), MidpointRounding.ToEven)];
}
