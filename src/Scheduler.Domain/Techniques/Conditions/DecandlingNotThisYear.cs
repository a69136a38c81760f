namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Pinching is the fallback on two-flush pines: candle removal is over, barred or was answered weakly, or the owner asks to even up.</summary>
public sealed class DecandlingNotThisYear : Condition
{
    public override string Id => "decandling-not-this-year";

    public override Outcome Test(TreeYear year)
    {
        if (year.Craft.Find("decandling") is not { } decandling || year.IsRequested("candle-pinch"))
            return Outcome.Pass;
        if (year.Log.YearsAgo(1, decandling.Id).Any(work => work.Result == "weak"))
            return Outcome.Pass;
        return Judge.Of(decandling, decandling.Modes[0], year, isAlone: true).Verdict is Verdict.Missed or Verdict.NotAllowed
            ? Outcome.Pass
            : Outcome.Bar("other-technique-does-this", "Candle removal does this here.");
    }
}
