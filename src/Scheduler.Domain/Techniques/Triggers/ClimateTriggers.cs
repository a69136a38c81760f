namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Night minima, taken as a mean over some nights, are above a temperature [C].</summary>
public sealed record WarmNightsTrigger(double AboveC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["nightMinAboveC"] = AboveC };
    public override string Words => $"nights stay above {AboveC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => year.NightsDay(draw, AboveC, above: true);
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.NightMeanC is { } mean ? mean > AboveC : null);
}

/// <summary>After the longest day, night minima, taken as a mean over some nights, fall under a temperature [C].</summary>
public sealed record CoolNightsTrigger(double BelowC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["nightMinBelowC"] = BelowC };
    public override string Words => $"nights fall under {BelowC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => year.NightsDay(draw, BelowC, above: false);
    public override Truth Today(TreeYear year, Side side) =>
        year.TodayDay < year.LongestDay ? Truth.No : TreeYear.Of(year.NightMeanC is { } mean ? mean < BelowC : null);
}

/// <summary>The root ball is warmer than this [C], by thermometer, or failing that by the mean of the last nights and days.</summary>
public sealed record RootBallTrigger(double AboveC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["rootBallAboveC"] = AboveC };
    public override string Words => $"the root ball is above {AboveC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;

    public override Truth Today(TreeYear year, Side side)
    {
        if (year.Garden.RootBallC is { } measured)
            return measured > AboveC ? Truth.Yes : Truth.No;
        return year.AirMeanC > AboveC ? Truth.Yes : Truth.Unknown;
    }
}

/// <summary>Days grow longer.</summary>
public sealed record DayLengthRisingTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["dayLengthRising"] = true };
    public override string Words => "days grow longer";
    public override double DayOf(TreeYear year, int draw, Side side) => year.ShortestDay;
    public override Truth Today(TreeYear year, Side side) =>
        year.TodayDay >= year.ShortestDay && year.TodayDay < year.LongestDay ? Truth.Yes : Truth.No;
}

/// <summary>Days have shortened so far that new growth must not be forced any more.</summary>
public sealed record DayLengthBackstopTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["dayLengthBackstop"] = true };
    public override string Words => "days have grown too short to force new growth";
    public override double DayOf(TreeYear year, int draw, Side side) => year.BackstopDay;
    public override Truth Today(TreeYear year, Side side) => year.TodayDay >= year.BackstopDay ? Truth.Yes : Truth.No;
}

/// <summary>The forecast minimum at the bench is at or below this [C].</summary>
public sealed record BenchMinTrigger(double AtMostC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["benchMinC"] = AtMostC };
    public override string Words => $"the bench is forecast to fall to {AtMostC} C or lower";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Nights.MinC(0) is { } min ? min <= AtMostC : null);
}

/// <summary>The bench is warmer than this again [C], so that a sheltered tree may go out.</summary>
public sealed record BenchMinAboveTrigger(double AboveC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["benchMinAboveC"] = AboveC };
    public override string Words => $"it is above {AboveC} C at the bench again";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Nights.MinC(0) is { } min ? min > AboveC : null);
}
