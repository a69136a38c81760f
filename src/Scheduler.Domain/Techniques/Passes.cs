using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>Opening and closing of one pass on the axis of the growth year, one value a draw; infinity: does not come.</summary>
internal sealed record PassDays(int Pass, double[] Opens, double[] Closes)
{
    public DateBand OpensBand(GrowthYear year) => DateBand.Of(year, Opens);
    public DateBand ClosesBand(GrowthYear year) => DateBand.Of(year, Closes);

    /// <summary>It likely opens this growth year.</summary>
    public bool IsExpected => Percentiles.IsLikelyBy(Opens, double.MaxValue);
}

/// <summary>
/// When the passes of one mode open and close over the draws. A later pass counts from the logged work of the pass
/// before it, or from the day on which that pass likely opens.
/// </summary>
internal static class Passes
{
    /// <summary>What opens and closes a pass. Groups that grow whenever it is warm are bounded by warm nights and daylight.</summary>
    public static (Trigger Opens, Trigger? Closes) Rule(TechniqueMode mode, TreeYear year, int pass)
    {
        var rule = mode.Windows.FirstFor(year)!;
        var (opens, closes) = pass == 1 || mode.Repeat is null ? NextOpening(rule, year) : (mode.Repeat.Opens, mode.Repeat.Closes ?? rule.Closes);
        if (!year.Group.GrowsWheneverWarm || opens is WarmNightsTrigger)
            return (opens, closes);
        var warm = year.Thresholds.WarmNightC.Value;
        List<Trigger> ends = closes is null ? [] : [closes];
        if (year.IsIndoors)
            return (opens, new AnyTrigger([.. ends, new DayLengthBackstopTrigger()]));
        return (new AllTrigger([opens, new WarmNightsTrigger(warm)]), new AnyTrigger([.. ends, new CoolNightsTrigger(warm), new DayLengthBackstopTrigger()]));
    }

    // The first of its times that is not over yet; the last one once all are.
    private static (Trigger Opens, Trigger? Closes) NextOpening(WindowRule rule, TreeYear year)
    {
        var (opens, closes) = (rule.Opens, rule.Closes);
        foreach (var again in rule.Again)
        {
            if (!year.IsCurrent || closes?.Today(year, Side.Closing) != Truth.Yes)
                break;
            (opens, closes) = (again.Opens, again.Closes);
        }
        return (opens, closes);
    }

    /// <param name="judgement">What was judged.</param>
    /// <param name="most">No passes after this one are worked out.</param>
    public static IReadOnlyList<PassDays> Of(Judgement judgement, int most = int.MaxValue)
    {
        var (mode, year) = (judgement.Mode, judgement.Year);
        var passes = new List<PassDays>();
        if (year.Outlook.DrawCount == 0)
            return passes;
        most = Math.Min(most, mode.Repeat?.OnlyAfterLogged == true ? Math.Min(judgement.MostPasses, judgement.Visits.Count + 1) : judgement.MostPasses);
        // Once a pass is missed, none can count from it.
        if (judgement.Verdict == Verdict.Missed)
            most = Math.Min(most, judgement.Visits.Count + 1);
        for (var pass = 1; pass <= most; pass++)
        {
            var next = pass;
            var days = pass == 1 ? Days(judgement, 1) : year.Planned(judgement.Key, Before(judgement, passes[^1]), () => Days(judgement, next));
            if (pass > judgement.Visits.Count && !days.IsExpected)
                break;
            passes.Add(days);
        }
        return passes;
    }

    /// <summary>
    /// The days of the whole tree's window from those of its parts: open from the first part on, until the last has
    /// closed. The parts must have seen equally many visits.
    /// </summary>
    public static IReadOnlyList<PassDays> Together(IReadOnlyList<Judgement> parts, int most = int.MaxValue)
    {
        var together = new List<PassDays>(Of(parts[0], most));
        foreach (var part in parts.Skip(1))
        {
            var passes = Of(part, most);
            for (var index = 0; index < passes.Count; index++)
            {
                if (index == together.Count)
                    together.Add(passes[index]);
                else
                    together[index] = Joined(together[index], passes[index]);
            }
        }
        return together;
    }

    public static DateBand ClosingBand(Judgement judgement) => judgement.Year.Outlook.DrawCount == 0
        ? DateBand.NotExpected
        : Days(judgement, judgement.Visits.Count + 1).ClosesBand(judgement.Year.Year);

    private static PassDays Joined(PassDays one, PassDays other)
    {
        double[] opens = new double[one.Opens.Length], closes = new double[opens.Length];
        for (var draw = 0; draw < opens.Length; draw++)
        {
            opens[draw] = Math.Min(one.Opens[draw], other.Opens[draw]);
            closes[draw] = double.IsPositiveInfinity(one.Closes[draw]) ? other.Closes[draw]
                : double.IsPositiveInfinity(other.Closes[draw]) ? one.Closes[draw] : Math.Max(one.Closes[draw], other.Closes[draw]);
        }
        return one with { Opens = opens, Closes = closes };
    }

    private static double[] Before(Judgement judgement, PassDays before)
    {
        if (before.Pass > judgement.Visits.Count)
            return before.Opens;
        var from = new double[before.Opens.Length];
        Array.Fill(from, judgement.Year.Year.DayOf(judgement.Visits[before.Pass - 1]) + 1);
        return from;
    }

    // What was seen outranks the clock: work that is to be done now, or is only held, is open in every draw; work that waits is not.
    private static (double Open, double Close) AsJudged(Judgement judgement, double open, double close)
    {
        var today = judgement.Year.TodayDay;
        return judgement.Verdict switch
        {
            Verdict.DoNow => (Math.Min(open, today), Math.Max(close, today)),
            Verdict.Wait when judgement.Held is not null => (Math.Min(open, today), Math.Max(close, today)),
            Verdict.Wait => (Math.Max(open, today + 1), close),
            _ => (open, close)
        };
    }

    private static PassDays Days(Judgement judgement, int pass)
    {
        var year = judgement.Year;
        var isNext = pass == judgement.Visits.Count + 1 && judgement.Opens is not null;
        var (opens, closes) = isNext ? (judgement.Opens!, judgement.Closes) : Rule(judgement.Mode, year, pass);
        var lastDay = judgement.Mode.LastDaysToFrost is { } days && year.FrostDay is { } frost ? frost - days : double.PositiveInfinity;
        var isDone = pass <= judgement.Visits.Count;
        double[] openDays = opens.DaysOf(year, Side.Opening), closeDays = closes?.DaysOf(year, Side.Closing) ?? year.InEveryDraw(double.PositiveInfinity);
        double[] from = new double[openDays.Length], to = new double[from.Length];
        for (var draw = 0; draw < from.Length; draw++)
        {
            var open = openDays[draw];
            if (double.IsNaN(open))
                open = year.ShortestDay;
            var close = closeDays[draw];
            close = Math.Min(double.IsNaN(close) ? double.PositiveInfinity : close, lastDay);
            close = Math.Min(close, year.Outlook.Year.Days - 1);
            if (isNext)
                (open, close) = AsJudged(judgement, open, close);
            if (isDone)
                open = Math.Min(open, year.Year.DayOf(judgement.Visits[pass - 1]));
            var comes = open <= close;
            from[draw] = comes ? open : isDone ? open : double.PositiveInfinity;
            to[draw] = comes ? close : isDone ? open : double.PositiveInfinity;
        }
        return new PassDays(pass, from, to);
    }
}
