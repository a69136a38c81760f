using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No candle is cut and pinched in one year.</summary>
public sealed class CandlesNotCutThisYear : Condition
{
    public override string Id => "candles-not-cut-this-year";

    public override Outcome Test(TreeYear year) => year.Log.Last("decandling") is null
        ? Outcome.Pass
        : Outcome.Bar("other-technique-does-this", "The candles were cut this year.", new SeasonTrigger("next-season"));
}
