using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// Axis days of triggers for care, which must say on or off every day: what is known today outranks the clock, and where
/// neither is sure the likely day decides.
/// </summary>
internal static class CareClock
{
    /// <summary>The day by each draw; infinity: not this growth year.</summary>
    public static double[] Days(Trigger trigger, TreeYear year, Side side)
    {
        var clock = Placed(trigger, year, side);
        var days = new double[clock.Length];
        var today = IsFromLog(trigger) || !year.IsCurrent ? Truth.Unknown : Today(trigger, year, side);
        double least = today == Truth.No ? year.TodayDay + 1 : double.NegativeInfinity, most = today == Truth.Yes ? year.TodayDay : double.PositiveInfinity;
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = Math.Clamp(double.IsNaN(clock[draw]) ? double.PositiveInfinity : clock[draw], least, most);
        return days;
    }

    /// <summary>Whether a trigger has come: today's knowledge, else the clock's likely day.</summary>
    public static bool HasCome(Trigger trigger, TreeYear year, Side side) => Percentiles.IsLikelyBy(Days(trigger, year, side), year.TodayDay);

    /// <summary>True between winter rest and swelling buds. What grows whenever it is warm never rests.</summary>
    public static bool IsAtRest(TreeYear year) => !year.Group.GrowsWheneverWarm && (HasCome(year, 97) || !HasCome(year, 1));

    /// <summary>True once a phase was seen or, where nothing is sure, its likely day is past.</summary>
    public static bool HasCome(TreeYear year, int bbch) => year.Reached(bbch) switch
    {
        Truth.Yes => true,
        Truth.Unknown => year.Band(bbch).Likely <= year.Today,
        _ => false
    };

    /// <summary>Days since work of this growth year, as they are told.</summary>
    public static Trigger Told(Trigger trigger, TreeYear year)
    {
        if (trigger is not DaysTrigger { From: { } from } days || !from.StartsWith("work:", StringComparison.Ordinal) || year.Log.Last(from["work:".Length..]) is not { } work)
            return trigger;
        var since = Period.DaysBetween(work.Date, year.Today);
        return new DaysTrigger(Math.Max(0, days.Low - since), Math.Max(0, days.High - since));
    }

    private static bool IsFromLog(Trigger trigger) => trigger switch
    {
        DaysTrigger { From: { } from } => from.StartsWith("work:", StringComparison.Ordinal),
        AnyTrigger any => any.Parts.All(IsFromLog),
        _ => false
    };

    // Days after work count from the day of the work, as they are told.
    private static double[] Placed(Trigger trigger, TreeYear year, Side side) => Placeable(trigger).DaysOf(year, side);

    // An older look at a candle gives way to the clock.
    private static Truth Today(Trigger trigger, TreeYear year, Side side)
    {
        var today = trigger.Today(year, side);
        var isOld = trigger is CandleTrigger && today != Truth.Yes && !year.Seen.Any(seen => seen.Candle is not null && year.Seen.IsToday(seen));
        return isOld ? Placeable(trigger).Today(year, side) : today;
    }

    // Where the named candle lengths lie on the track of shoots.
    private static Trigger Placeable(Trigger trigger) => trigger is CandleTrigger { Candle: "C4" } ? new PhaseTrigger(91) : trigger;
}
