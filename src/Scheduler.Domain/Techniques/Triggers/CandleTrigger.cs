namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>A candle of a pine has come so far: <c>C1</c> to <c>C4</c>.</summary>
public sealed record CandleTrigger(string Candle) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["candle"] = Candle };
    public override string Words => $"candles are at {Candle}";
    public override double DayOf(TreeYear year, int draw, Side side) => year.PhaseDay(draw, CodeOf(Candle));

    // Candles move fast, so a look counts as "not yet" for a few days only; then the clock is asked.
    public override Truth Today(TreeYear year, Side side)
    {
        if (year.Seen.Candle is { } seen && string.CompareOrdinal(seen, Candle) >= 0)
            return Truth.Yes;
        return year.Seen.CandleFresh == true ? Truth.No : year.Reached(CodeOf(Candle));
    }

    /// <summary>Where the named candle lengths lie on the track of shoots.</summary>
    internal static int CodeOf(string candle) => candle switch { "C1" => 31, "C2" => 33, "C3" => 37, _ => 91 };
}
