namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>
/// Heat still expected from local normals has fallen below a sum [C*d]: above base 5 until the first frost, above
/// base 10 until a fortnight before it.
/// </summary>
public sealed record RemainingHeatTrigger(int BaseC, double BelowCd) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object>
    {
        ["remainingHeatCd"] = new Dictionary<string, object> { ["base"] = BaseC, ["below"] = BelowCd }
    };

    public override string Words => $"less than {BelowCd} degree-days above {BaseC} C are still to come before frost";

    public override double DayOf(TreeYear year, int draw, Side side) => year.RemainingHeatDay(BaseC, BelowCd);

    public override double[] DaysOf(TreeYear year, Side side) => year.InEveryDraw(DayOf(year, 0, side));

    public override Truth Today(TreeYear year, Side side)
    {
        if (year.RemainingHeatCd(BaseC) is not { } left)
            return Truth.Unknown;
        return (side == Side.Closing ? left < BelowCd : left <= BelowCd) ? Truth.Yes : Truth.No;
    }
}
