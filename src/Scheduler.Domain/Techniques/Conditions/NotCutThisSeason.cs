namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A one-flush tree is cut back once a season.</summary>
public sealed class NotCutThisSeason : Condition
{
    public override string Id => "not-cut-this-season";

    public override Outcome Test(TreeYear year) =>
        year.Log.Last("cut-back") is null ? Outcome.Pass : Outcome.Leave("done-this-window", "Cut back once this season, and it flushes only once.");
}
