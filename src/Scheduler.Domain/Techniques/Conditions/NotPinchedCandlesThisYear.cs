using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Candle pinch and candle removal do not go into one year.</summary>
public sealed class NotPinchedCandlesThisYear : Condition
{
    public override string Id => "not-pinched-candles-this-year";

    public override Outcome Test(TreeYear year) => year.Log.Last("candle-pinch") is null
        ? Outcome.Pass
        : Outcome.Bar("other-technique-does-this", "The candles were pinched this year.", new SeasonTrigger("next-season"));
}
