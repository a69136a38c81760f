namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Pines are thinned where more than two candles, shoots or buds stand at a point.</summary>
public sealed class MoreThanTwoPerPoint : Condition
{
    public override string Id => "more-than-two-per-point";

    private const int Kept = 2;

    public override Outcome Test(TreeYear year)
    {
        if (year.Seen.Any(seen => seen.CandlesPerPoint > Kept || seen.ShootsPerPoint > Kept))
            return Outcome.Pass;
        return year.Seen.Any(seen => seen.CandlesPerPoint is not null || seen.ShootsPerPoint is not null)
            ? Outcome.Leave("not-wanted-by-goal", "Nowhere do more than two stand at a point.")
            : Outcome.Ask("Count the candles or shoots at a point. More than two are thinned.");
    }
}
