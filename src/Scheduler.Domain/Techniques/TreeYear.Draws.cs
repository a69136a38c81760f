using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <content>When growth reaches a point in each draw of the outlook.</content>
public sealed partial class TreeYear
{
    public double PhaseDay(int draw, int bbch)
    {
        if (bbch == BloomOver && FlowersTaken is { } taken)
            return Year.DayOf(taken);
        return Group.GrowsWheneverWarm && Outlook.SeenOn(bbch) is null ? double.NaN : Outlook.DayOf(draw, bbch);
    }

    /// <summary>The days of a phase in every draw; not to be changed.</summary>
    public double[] PhaseDays(int bbch)
    {
        if (bbch == BloomOver && FlowersTaken is { } taken)
            return InEveryDraw(Year.DayOf(taken));
        return Group.GrowsWheneverWarm && Outlook.SeenOn(bbch) is null ? InEveryDraw(double.NaN) : Outlook.DaysOf(bbch);
    }

    public double[] HardenedDays() => Seen.HardenedOn is { } seen ? InEveryDraw(Year.DayOf(seen)) : PhaseDays(91);

    public double[] LeavesDays(int count) => PhaseDays(LeafCode(count));

    public double[] InEveryDraw(double day)
    {
        var days = new double[Outlook.DrawCount];
        days.AsSpan().Fill(day);
        return days;
    }

    public double HardenedDay(int draw) => Seen.HardenedOn is { } seen ? Year.DayOf(seen) : PhaseDay(draw, 91);

    public double LeavesDay(int draw, int count) => PhaseDay(draw, LeafCode(count));

    public double FullSizeDay(int draw)
    {
        var leaves = PhaseDay(draw, 10);
        if (double.IsNaN(leaves))
            return leaves;
        return Math.Min(MemberOf(draw).DayOfHeat(5, leaves, Thresholds.LeavesFullSizeCd.Value), PhaseDay(draw, 91));
    }

    /// <summary>When shoots carry leaves again after a leaf removal of this season, or summer needles have hardened after candle removal.</summary>
    public double SecondFlushDay(int draw)
    {
        if (Log.Last("decandling") is { } candles)
            return MemberOf(draw).DayOfHeat(10, Year.DayOf(candles.Date) + 1, Thresholds.SummerNeedlesCd.Value);
        var work = Log.Last("full-defoliation") ?? Log.Last("partial-defoliation");
        return work is null
            ? double.PositiveInfinity
            : MemberOf(draw).DayOfHeat(5, Year.DayOf(work.Date) + 1, Thresholds.SecondFlushLeavesCd.Value);
    }

    /// <summary>When those new shoots have hardened: leaves as long after they separate as those of spring, needles at once.</summary>
    public double SecondFlushHardDay(int draw)
    {
        var day = SecondFlushDay(draw);
        return Log.Last("decandling") is not null || double.IsPositiveInfinity(day) ? day : MemberOf(draw).DayOfHeat(5, day, Thresholds.HardenedLowCd.Value);
    }

    /// <summary>When those new shoots reach a phase: leaf codes by regrowth from the work on, all else with the flush.</summary>
    public double SecondFlushDay(int draw, int bbch)
    {
        var work = Log.Last("full-defoliation") ?? Log.Last("partial-defoliation");
        return work is null || bbch is < 10 or > 19
            ? SecondFlushDay(draw)
            : Regrowth.DayOf(bbch, Outlook.Scale, MemberOf(draw), Year.DayOf(work.Date) + 1);
    }

    /// <summary>Axis day of an event: <c>today</c>, <c>this-work</c>, <c>bbch-nn</c> or <c>work:technique</c>; infinity if it is not in sight.</summary>
    public double EventDay(string from, int draw)
    {
        if (from is "today" or "this-work")
            return TodayDay;
        if (from.StartsWith("bbch-", StringComparison.Ordinal))
            return PhaseDay(draw, Code(from));
        if (from == WireLook)
            return double.PositiveInfinity;
        var key = from["work:".Length..];
        if ((PlanOf(key) ?? PlanOfAMode(key)) is { } days)
            return days[draw];
        return Log.Last(key) is { } work ? Year.DayOf(work.Date) + 1 : double.PositiveInfinity;
    }

    /// <summary>The same in every draw; not to be changed.</summary>
    public double[] EventDays(string from)
    {
        if (from is "today" or "this-work")
            return InEveryDraw(TodayDay);
        if (from.StartsWith("bbch-", StringComparison.Ordinal))
            return PhaseDays(Code(from));
        if (from == WireLook)
            return InEveryDraw(double.PositiveInfinity);
        var key = from["work:".Length..];
        return PlanOf(key) ?? PlanOfAMode(key) ?? InEveryDraw(Log.Last(key) is { } work ? Year.DayOf(work.Date) + 1 : double.PositiveInfinity);
    }
}
