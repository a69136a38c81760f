namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No second visit where the owner cuts all candles on one day (setting 7).</summary>
public sealed class CandlesInTwoVisits : Condition
{
    public override string Id => "candles-in-two-visits";

    public override Outcome Test(TreeYear year) => year.Setting("7") == "one-day"
        ? Outcome.Leave("owner-preference", "All candles go on one day by your setting.")
        : Outcome.Pass;
}
