using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Triggers as the owner is told them today: what is still waited for, with the heat or days that are left where a
/// starting point is known.
/// </summary>
internal static class Displayed
{
    private const int HeatStep = 10;

    public static Trigger? Opens(Judgement judgement)
    {
        if (judgement.Held is { } held && judgement.Verdict == Verdict.Wait)
        {
            var days = NodaTime.Period.DaysBetween(judgement.Year.Today, held.Until);
            return new DaysTrigger(days, days);
        }
        if (judgement.Opens is not { } opens)
            return null;
        var year = judgement.Year;
        return WithHeatLeft(FromToday(judgement.Verdict == Verdict.Wait ? opens.StillWaited(year, Side.Opening) : opens, year), year);
    }

    public static Trigger? Closes(Judgement judgement)
    {
        if (judgement.Opens is null)
            return null;
        if (judgement.Closes is { } closes)
            return WithDays(closes, judgement.Year);
        return judgement.Mode.LastDaysToFrost is { } days ? new DaysToFrostTrigger(days) : null;
    }

    // A flush hardens so much heat after its leaves separated; what is left of it is told.
    private static Trigger WithHeatLeft(Trigger trigger, TreeYear year)
    {
        var parts = trigger is AllTrigger all ? all.Parts : [trigger];
        if (!parts.Any(part => part is HardenedTrigger { Flush: null }) || parts.Any(part => part is HeatTrigger)
            || year.Hardened() == Truth.Yes || year.HeatSince(5, "bbch-10") is not { } heat)
            return trigger;
        var (low, high) = (Left(year.Thresholds.HardenedLowCd.Value), Left(year.Thresholds.HardenedHighCd.Value));
        return new AllTrigger([.. parts, new HeatTrigger(5, low, high, "today")]);

        double Left(double sum) => Math.Max(0, Math.Round((sum - heat) / HeatStep) * HeatStep);
    }

    private static Trigger FromToday(Trigger trigger, TreeYear year)
    {
        if (trigger is not DaysTrigger { From: { } from } days || from.StartsWith("bbch-", StringComparison.Ordinal))
            return trigger;
        if (year.DaysSince(from) is { } since)
            return new DaysTrigger(Math.Max(0, days.Low - since), Math.Max(0, days.High - since));
        var key = from["work:".Length..];
        return year.PlanOf(key) is { } plan && plan[0] <= year.TodayDay ? new DaysTrigger(days.Low, days.High) : trigger;
    }

    // Heat from a seen phase is also told in days, as the weather stands.
    private static Trigger WithDays(Trigger trigger, TreeYear year) => trigger switch
    {
        AnyTrigger any => new AnyTrigger([.. any.Parts.Select(part => WithDays(part, year))]),
        AllTrigger all when all.Parts.OfType<HeatTrigger>().FirstOrDefault(part => part.MaxCd is not null) is { } heat
            && year.HeatSince(heat.BaseC, heat.From) is not null => new AllTrigger([.. all.Parts, DaysLeft(heat, year)]),
        _ => trigger
    };

    private static DaysTrigger DaysLeft(HeatTrigger heat, TreeYear year)
    {
        return new DaysTrigger(Median(Side.Opening), Median(Side.Closing));

        int Median(Side side)
        {
            var days = (double[])heat.DaysOf(year, side).Clone();
            Array.Sort(days);
            var middle = days[days.Length / 2];
            return double.IsInfinity(middle) ? year.Year.Days : Math.Max(0, (int)Math.Ceiling(middle - year.TodayDay));
        }
    }
}
