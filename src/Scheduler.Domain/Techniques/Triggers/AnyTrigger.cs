namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The first part to come counts.</summary>
public sealed record AnyTrigger(IReadOnlyList<Trigger> Parts) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object>
    {
        ["any"] = Parts.Select(part => part.Fields).ToArray()
    };

    public override string Words => string.Join(", or ", Parts.Select(part => part.Words));

    public override string? Sight => Parts.Select(part => part.Sight).OfType<string>().ToList() is { Count: > 0 } seen ? string.Join(", or ", seen) : null;

    public override string Question => Sight is null ? Parts[0].Question : base.Question;

    public override double DayOf(TreeYear year, int draw, Side side)
    {
        var earliest = double.NaN;
        foreach (var part in Parts)
        {
            var day = part.DayOf(year, draw, side);
            if (double.IsNaN(earliest) || day < earliest)
                earliest = double.IsNaN(day) ? earliest : day;
        }
        return earliest;
    }

    public override double[] DaysOf(TreeYear year, Side side)
    {
        var days = Parts[0].DaysOf(year, side);
        for (var index = 1; index < Parts.Count; index++)
        {
            var (one, other) = (days, Parts[index].DaysOf(year, side));
            days = new double[one.Length];
            for (var draw = 0; draw < days.Length; draw++)
                days[draw] = double.IsNaN(one[draw]) || other[draw] < one[draw] ? other[draw] : one[draw];
        }
        return days;
    }

    public override Truth Today(TreeYear year, Side side) => Parts.Max(part => part.Today(year, side));

    public override bool IsRuledOut(TreeYear year) => Parts.All(part => part.IsRuledOut(year));

    public override Trigger StillWaited(TreeYear year, Side side)
    {
        var open = Parts.Where(part => !part.IsRuledOut(year)).Select(part => part.StillWaited(year, side)).ToList();
        return open.Count switch { 0 => this, 1 => open[0], _ => new AnyTrigger(open) };
    }
}
