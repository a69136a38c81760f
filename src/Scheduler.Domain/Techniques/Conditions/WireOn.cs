namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Wire is checked only where it is on.</summary>
public sealed class WireOn : Condition
{
    public override string Id => "wire-on";

    public override Outcome Test(TreeYear year)
    {
        if (!year.IsCurrent || !year.Wire.IsOn)
            return Outcome.Leave("not-wanted-by-goal", "No wire is known to be on.");
        return year.Wire.IsTight ? Outcome.Leave("wire-tight", "It was seen tight: take it off.") : Outcome.Pass;
    }
}
