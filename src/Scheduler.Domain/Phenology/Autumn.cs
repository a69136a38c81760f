using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// When growth ends. Deciduous trees: leaf fall begins once the day is shorter than a limit and the mean of ten days
/// is below a limit; half and all of the fall follow. Evergreens rest once nights of ten days stay below a limit.
/// </summary>
/// <remarks>Day length starts senescence and cold speeds it (Delpierre et al., Agric. For. Meteorol. 149, 2009); the limits are estimates.</remarks>
public static class Autumn
{
    private const int Window = 10;
    private const int HalfFallenAfterDays = 10;
    private const int AllFallenAfterDays = 20;

    public static double DayOf(int bbch, GrowthScale scale, SeasonEnsemble season, SeasonMember member)
    {
        var rests = scale.Species.IsDeciduous ? LeafFallDay(scale.Rules, season, member) : EvergreenRestDay(scale.Rules, season, member);
        if (!scale.Species.IsDeciduous)
            return bbch == 97 ? rests : double.PositiveInfinity;
        return rests + bbch switch { 93 => 0, 95 => HalfFallenAfterDays, _ => AllFallenAfterDays };
    }

    private static double LeafFallDay(GrowthRules rules, SeasonEnsemble season, SeasonMember member)
    {
        var midsummer = season.Year.HeatStartDay + 181;
        var sum = 0d;
        for (var day = midsummer - Window; day < member.Days; day++)
        {
            sum += Mean(member, day) - (day >= midsummer ? Mean(member, day - Window) : 0);
            if (day < midsummer || sum / Window >= rules.LeafFallMeanC.Value)
                continue;
            var date = season.Year.DateOf(day);
            if (DayLength.ForsytheHours(season.Latitude, date.DayOfYear) < rules.LeafFallDayLengthHours.Value)
                return day;
        }
        return double.PositiveInfinity;
    }

    private static double EvergreenRestDay(GrowthRules rules, SeasonEnsemble season, SeasonMember member)
    {
        var midsummer = season.Year.HeatStartDay + 181;
        for (var day = midsummer; day < member.Days; day++)
        {
            var nights = 0d;
            for (var back = 0; back < Window; back++)
                nights += double.IsNaN(member.MinC[day - back]) ? rules.EvergreenRestNightC.Value : member.MinC[day - back];
            if (nights / Window < rules.EvergreenRestNightC.Value)
                return day;
        }
        return double.PositiveInfinity;
    }

    private static double Mean(SeasonMember member, int day)
    {
        var mean = (member.MinC[day] + member.MaxC[day]) / 2;
        return double.IsNaN(mean) ? 10 : mean;
    }
}
