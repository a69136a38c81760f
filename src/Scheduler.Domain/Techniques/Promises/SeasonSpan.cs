using NodaTime;
using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// A season to come, as dates. A spring reaches from bud swell (the start of the heat count where the clock does not
/// tell) to the longest day; a season to its turn; late dormancy over the two months after the shortest days. These
/// bounds are working estimates.
/// </summary>
internal sealed record SeasonSpan(DateBand Opens, DateBand Closes)
{
    private const int BudSwell = 1;
    private const int LateDormancyMonths = 2;
    private const string LateDormancy = "late-dormancy";
    private static readonly string[] Numbers = ["no", "one", "two", "three", "four", "five", "six"];

    /// <summary>How many growth years after the work it comes; a season whose name tells no number is the next.</summary>
    public static int YearsAhead(string season)
    {
        var words = season.Split('-');
        return words is ["in", var number, "springs" or "seasons"] && Array.IndexOf(Numbers, number) is > 0 and var years ? years : 1;
    }

    public static SeasonSpan Of(string season, GrowthYear worked, Func<GrowthYear, TreeYear?> yearOf)
    {
        var year = Ahead(worked, YearsAhead(season));
        if (season == LateDormancy)
            return new SeasonSpan(DateBand.On(year.HeatStart), DateBand.On(year.HeatStart.PlusMonths(LateDormancyMonths)));
        return new SeasonSpan(Begin(year, yearOf), DateBand.On(season.Contains("spring", StringComparison.Ordinal) ? LongestDay(year) : year.Next.Turn.PlusDays(-1)));
    }

    /// <summary>From the spring of one growth year to that of another.</summary>
    public static SeasonSpan OfYears(GrowthYear from, GrowthYear to, Func<GrowthYear, TreeYear?> yearOf) =>
        new(Begin(from, yearOf), DateBand.On(LongestDay(to)));

    public static GrowthYear Ahead(GrowthYear year, int years) => year with { Year = year.Year + years };

    private static DateBand Begin(GrowthYear year, Func<GrowthYear, TreeYear?> yearOf) =>
        yearOf(year) is { Group.GrowsWheneverWarm: false } known && known.Band(BudSwell) is { IsExpected: true } swell ? swell : DateBand.On(year.HeatStart);

    private static LocalDate LongestDay(GrowthYear year) => year.DateOf(year.MidsummerDay - 9);
}
