namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>A candle of a pine has come so far: <c>C1</c> to <c>C4</c>.</summary>
public sealed record CandleTrigger(string Candle) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["candle"] = Candle };
    public override string Words => $"candles are at {Candle}";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) =>
        TreeYear.Of(year.Seen.Candle is { } seen ? string.CompareOrdinal(seen, Candle) >= 0 : null);
}
