namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>A BBCH code is reached. <see cref="Flush"/> 2 counts from the leaf loss that made the tree sprout again.</summary>
public sealed record PhaseTrigger(int Bbch, int? Flush = null) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => Flush is { } flush
        ? new Dictionary<string, object> { ["bbch"] = Bbch, ["flush"] = flush }
        : new Dictionary<string, object> { ["bbch"] = Bbch };

    public override string Words => PhaseWords.Of(Bbch) + (Flush == 2 ? " of the second flush" : "");

    public override double DayOf(TreeYear year, int draw, Side side) =>
        Flush == 2 ? year.SecondFlushDay(draw, Bbch) : year.PhaseDay(draw, Bbch);

    public override double[] DaysOf(TreeYear year, Side side) => Flush == 2 ? base.DaysOf(year, side) : year.PhaseDays(Bbch);

    public override Truth Today(TreeYear year, Side side) =>
        Flush == 2 ? year.Passed(draw => year.SecondFlushDay(draw, Bbch)) : year.Reached(Bbch, side == Side.Closing);
}

/// <summary>BBCH codes in a grower's words.</summary>
internal static class PhaseWords
{
    public static string Of(int bbch) => bbch switch
    {
        0 => "buds are at rest (BBCH 00)",
        1 => "buds begin to swell (BBCH 01)",
        3 => "bud scales part, no green yet (BBCH 03)",
        7 => "buds break, green tips on half of them (BBCH 07)",
        9 => "leaf tips stand past the scales (BBCH 09)",
        10 => "the first leaves separate (BBCH 10)",
        11 => "the first leaf or pair is unfolded (BBCH 11)",
        >= 12 and <= 19 => $"{bbch - 10} leaves or pairs are unfolded (BBCH {bbch})",
        >= 31 and <= 39 => $"shoots have {(bbch - 30) * 10} % of their length (BBCH {bbch})",
        55 => "flower buds show (BBCH 55)",
        60 => "the first flowers open (BBCH 60)",
        65 => "the flowers are in full bloom (BBCH 65)",
        69 => "petals are down (BBCH 69)",
        71 => "fruit has set (BBCH 71)",
        75 => "fruit has half its size (BBCH 75)",
        91 => "the flush has hardened (BBCH 91)",
        97 => "the tree is dormant (BBCH 97)",
        _ => $"BBCH {bbch:00}"
    };
}
