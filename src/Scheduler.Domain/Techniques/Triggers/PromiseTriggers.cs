namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Another technique is logged as done this growth year.</summary>
public sealed record AfterTrigger(string Technique) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["after"] = Technique };
    public override string Words => $"{Technique.Replace('-', ' ')} is done";
    public override double DayOf(TreeYear year, int draw, Side side) => year.EventDay("work:" + Technique, draw);
    public override Truth Today(TreeYear year, Side side) => year.Log.Last(Technique) is null ? Truth.No : Truth.Yes;
}

/// <summary>A season to come: <c>next-spring</c>, <c>next-season</c>, <c>in-two-springs</c>, <c>late-dormancy</c>. Never this growth year.</summary>
public sealed record SeasonTrigger(string Season) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["season"] = Season };
    public override string Words => Season.Replace('-', ' ');
    public override double DayOf(TreeYear year, int draw, Side side) => double.PositiveInfinity;
    public override Truth Today(TreeYear year, Side side) => Truth.No;
}

/// <summary>Something only the owner will see, in words.</summary>
public sealed record TextTrigger(string Text) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["text"] = Text };
    public override string Words => Text;
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => Truth.Unknown;
}

/// <summary>A candle of a pine has come so far: <c>C1</c> to <c>C4</c>.</summary>
public sealed record CandleTrigger(string Candle) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["candle"] = Candle };
    public override string Words => $"candles are at {Candle}";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) =>
        TreeYear.Of(year.Seen.Candle is { } seen ? string.CompareOrdinal(seen, Candle) >= 0 : null);
}
