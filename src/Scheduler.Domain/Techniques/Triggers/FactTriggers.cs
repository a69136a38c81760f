namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The leaves that were left have grown to full size.</summary>
public sealed record LeavesFullSizeTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["leavesFullSize"] = true };
    public override string Words => "the leaves are full size";
    public override double DayOf(TreeYear year, int draw, Side side) => year.FullSizeDay(draw);
    public override Truth Today(TreeYear year, Side side) => year.LeavesFullSize();
}

/// <summary>The base of the shoot is firm. Only the owner's fingers can tell.</summary>
public sealed record BaseFirmTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["baseFirm"] = true };
    public override string Words => "the base of the shoot is firm";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) =>
        year.Hardened() == Truth.Yes ? Truth.Yes : TreeYear.Of(year.Seen.BaseFirm);
}

/// <summary>The base of the shoot is still soft. Once it is firm it does not turn soft again.</summary>
public sealed record SoftTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["soft"] = true };
    public override string Words => "the base of the shoot is still soft";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => IsRuledOut(year) ? Truth.No : TreeYear.Of(year.Seen.Soft);
    public override bool IsRuledOut(TreeYear year) => year.Seen.BaseFirm == true || year.Hardened() == Truth.Yes;
}

/// <summary>The crown is at least so dense (0-3).</summary>
public sealed record DensityTrigger(int AtLeast) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["density"] = AtLeast };
    public override string Words => $"density is {AtLeast} or more (the trunk line is hidden)";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Seen.Density is { } density ? density >= AtLeast : null);
}

/// <summary>A shoot is so long [cm]. Unseen counts as not reached.</summary>
public sealed record ShootLengthTrigger(double Cm) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["shootCm"] = Cm };
    public override string Words => $"the shoot is over {Cm} cm";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => year.Seen.ShootCm > Cm ? Truth.Yes : Truth.No;
}

/// <summary>The next internode is so long [cm]. Unseen counts as not reached.</summary>
public sealed record InternodeTrigger(double Cm) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["internodeCm"] = Cm };
    public override string Words => $"the next internode is over {Cm} cm";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => year.Seen.InternodeCm > Cm ? Truth.Yes : Truth.No;
}

/// <summary>Only so many of the shoots are left to do [%]. Told by the owner, by logging the work as done.</summary>
public sealed record ShareLeftTrigger(double Percent) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["shareLeftPercent"] = Percent };
    public override string Words => $"under {Percent} % of the shoots are left to do";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => Truth.No;
}
