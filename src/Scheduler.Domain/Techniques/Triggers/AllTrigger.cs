namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>All parts must hold. Parts that only the owner's eye can tell are left out of forecasts.</summary>
public sealed record AllTrigger(IReadOnlyList<Trigger> Parts) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields
    {
        get
        {
            var all = new Dictionary<string, object>();
            foreach (var (name, value) in Parts.SelectMany(part => part.Fields))
                all.TryAdd(name, value);
            return all;
        }
    }

    public override string Words => string.Join(" and ", Parts.Select(part => part.Words));

    public override string? Sight => Parts.Select(part => part.Sight).OfType<string>().ToList() is { Count: > 0 } seen ? string.Join(" and ", seen) : null;

    public override string Question => Sight is null ? Parts[0].Question : base.Question;

    public override double DayOf(TreeYear year, int draw, Side side)
    {
        var latest = double.NaN;
        foreach (var part in Parts)
        {
            var day = part.DayOf(year, draw, side);
            if (double.IsNaN(latest) || day > latest)
                latest = double.IsNaN(day) ? latest : day;
        }
        return latest;
    }

    public override double[] DaysOf(TreeYear year, Side side)
    {
        var days = Parts[0].DaysOf(year, side);
        for (var index = 1; index < Parts.Count; index++)
        {
            var (one, other) = (days, Parts[index].DaysOf(year, side));
            days = new double[one.Length];
            for (var draw = 0; draw < days.Length; draw++)
                days[draw] = double.IsNaN(one[draw]) || other[draw] > one[draw] ? other[draw] : one[draw];
        }
        return days;
    }

    public override Truth Today(TreeYear year, Side side) => Parts.Min(part => part.Today(year, side));

    public override bool IsRuledOut(TreeYear year) => Parts.Any(part => part.IsRuledOut(year));

    public override Trigger StillWaited(TreeYear year, Side side)
    {
        var open = Parts.Where(part => part.Today(year, side) != Truth.Yes).Select(part => part.StillWaited(year, side)).ToList();
        return open.Count switch { 0 => this, 1 => open[0], _ => new AllTrigger(open) };
    }
}
