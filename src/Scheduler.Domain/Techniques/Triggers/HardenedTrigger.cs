namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The flush is hardened: leaves full size, dark and firm, the base of the shoot no longer green and soft.</summary>
public sealed record HardenedTrigger(int? Flush = null) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => Flush is { } flush
        ? new Dictionary<string, object> { ["hardened"] = true, ["flush"] = flush }
        : new Dictionary<string, object> { ["hardened"] = true };

    public override string Words => Flush == 2 ? "the second flush has hardened" : "the flush has hardened: leaves dark and firm";

    public override double DayOf(TreeYear year, int draw, Side side) =>
        Flush == 2 ? year.SecondFlushDay(draw) : year.HardenedDay(draw);

    public override double[] DaysOf(TreeYear year, Side side) => Flush == 2 ? base.DaysOf(year, side) : year.HardenedDays();

    public override Truth Today(TreeYear year, Side side) =>
        Flush == 2 ? year.Seen.Any(seen => seen.Flush == 2 && seen.Hardened == true) ? Truth.Yes : year.Passed(draw => year.SecondFlushDay(draw)) : year.Hardened();
}
