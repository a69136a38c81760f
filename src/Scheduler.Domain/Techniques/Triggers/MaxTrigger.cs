namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The forecast maximum of today or tomorrow is at or above this [C].</summary>
public sealed record MaxTrigger(double AtLeastC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["maxC"] = AtLeastC };
    public override string Words => $"today or tomorrow reaches {AtLeastC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;

    public override Truth Today(TreeYear year, Side side)
    {
        var known = year.Garden.Days.Where(day => day.Date == year.Today || day.Date == year.Today.PlusDays(1)).ToList();
        return known.Count == 0 ? Truth.Unknown : known.Exists(day => day.MaxC >= AtLeastC) ? Truth.Yes : Truth.No;
    }
}
