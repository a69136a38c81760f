using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// When a promise falls due. What counts from the work counts from the day it was logged for, heat from the end of that
/// day; a phase or count-back that this growth year has behind it already means the next one.
/// </summary>
internal sealed class PromiseDue(TreeYear current, TreeYear next)
{
    /// <summary>When it first falls due and by when; null: it was due in a season that is over, and went with it.</summary>
    public SeasonSpan? Of(FollowUpRule rule, WorkRecord work)
    {
        var worked = GrowthYear.Of(work.Date, current.Year.Hemisphere);
        var (season, other) = Split(rule.When);
        if (season is not null)
        {
            var target = SeasonSpan.Ahead(worked, SeasonSpan.YearsAhead(season.Season));
            return other is not null && YearOf(target) is { } year && Span(other, year, work) is { Opens.IsExpected: true } known
                ? known
                : SeasonSpan.Of(season.Season, worked, YearOf);
        }
        if (rule.When is DaysTrigger days && IsFromWork(days.From))
            return new SeasonSpan(DateBand.On(work.Date.PlusDays(days.Low)), DateBand.On(work.Date.PlusDays(days.High)));
        // Late in the year before, work already lies on the axis of this growth year.
        if (worked.Year < current.Year.Year && current.Year.DayOf(work.Date) < 0)
            return null;
        var span = Span(rule.When, current, work);
        if (span.Opens.Likely > work.Date || CountsFromWork(rule.When) || !span.Opens.IsExpected && current.Outlook.DrawCount == 0)
            return span;
        return rule.Kind == FollowUpKind.Rest ? null : Span(rule.When, next, work);
    }

    public TreeYear? YearOf(GrowthYear year) => year == current.Year ? current : year == next.Year ? next : null;

    private static SeasonSpan Span(Trigger when, TreeYear year, WorkRecord work) =>
        new(Band(when, year, work, Side.Opening), Band(when, year, work, Side.Closing));

    private static DateBand Band(Trigger when, TreeYear year, WorkRecord work, Side side)
    {
        var days = new double[year.Outlook.DrawCount];
        for (var draw = 0; draw < days.Length; draw++)
        {
            var day = DayOf(when, year, work, draw, side);
            days[draw] = double.IsNaN(day) ? double.PositiveInfinity : day;
        }
        return DateBand.Of(year.Year, days);
    }

    private static double DayOf(Trigger when, TreeYear year, WorkRecord work, int draw, Side side)
    {
        var day = year.Year.DayOf(work.Date);
        return when switch
        {
            HeatTrigger heat when IsFromWork(heat.From) => year.MemberOf(draw).DayOfHeat(heat.BaseC, day + 1, side == Side.Closing ? heat.MaxCd ?? heat.MinCd : heat.MinCd),
            DaysTrigger days when IsFromWork(days.From) => day + (side == Side.Closing ? days.High : days.Low),
            AllTrigger all => Best(all.Parts, latest: true),
            AnyTrigger any => Best(any.Parts, latest: false),
            _ => when.DayOf(year, draw, side)
        };

        // What only the eye can tell is left out.
        double Best(IReadOnlyList<Trigger> parts, bool latest)
        {
            var known = parts.Select(part => DayOf(part, year, work, draw, side)).Where(one => !double.IsNaN(one)).DefaultIfEmpty(double.NaN);
            return latest ? known.Max() : known.Min();
        }
    }

    private static bool IsFromWork(string? from) => from is null or "today" or "this-work";

    private static bool CountsFromWork(Trigger when) => when switch
    {
        HeatTrigger heat => IsFromWork(heat.From),
        DaysTrigger days => IsFromWork(days.From),
        AllTrigger all => all.Parts.Any(CountsFromWork),
        AnyTrigger any => any.Parts.All(CountsFromWork),
        _ => false
    };

    private static (SeasonTrigger? Season, Trigger? Other) Split(Trigger when)
    {
        if (when is SeasonTrigger alone)
            return (alone, null);
        if (when is not AllTrigger all || all.Parts.OfType<SeasonTrigger>().FirstOrDefault() is not { } season)
            return (null, when);
        var rest = all.Parts.Where(part => part != season).ToList();
        return (season, rest.Count == 1 ? rest[0] : new AllTrigger(rest));
    }
}
