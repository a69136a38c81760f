namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>So many days from today, or from a named event.</summary>
public sealed record DaysTrigger(int Low, int High, string? From = null) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => From is { } from
        ? new Dictionary<string, object> { ["days"] = new[] { Low, High }, ["from"] = from }
        : new Dictionary<string, object> { ["days"] = new[] { Low, High } };

    public override string Words => From is { } from ? $"{Span} after {HeatTrigger.FromWords(from)}" : Low == 0 && High == 0 ? "now" : $"in {Span}";

    public override string? Sight => null;

    public override string Question => HeatTrigger.QuestionOf(From) is { } when ? $"{when}: it takes {Span} from that day." : base.Question;

    private string Span => Low == High ? $"{Low} days" : $"{Low}-{High} days";

    public override double DayOf(TreeYear year, int draw, Side side)
    {
        var days = side == Side.Closing ? High : Low;
        return year.DaysSince(From ?? "today") is { } since ? year.TodayDay - since + days : year.EventDay(From!, draw) + days;
    }

    public override double[] DaysOf(TreeYear year, Side side)
    {
        var later = side == Side.Closing ? High : Low;
        if (year.DaysSince(From ?? "today") is { } since)
            return year.InEveryDraw(year.TodayDay - since + later);
        var days = (double[])year.EventDays(From!).Clone();
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] += later;
        return days;
    }

    public override Truth Today(TreeYear year, Side side) => year.DaysSince(From ?? "today") is { } since
        ? (side == Side.Closing ? since > High : since >= Low) ? Truth.Yes : Truth.No
        : year.Passed(DaysOf(year, side));
}
