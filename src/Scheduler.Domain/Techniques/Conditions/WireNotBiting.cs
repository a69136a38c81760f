namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Where wire bit, that spot is not wired again this season.</summary>
public sealed class WireNotBiting : Condition
{
    public override string Id => "wire-not-biting";

    public override Outcome Test(TreeYear year)
    {
        if (year.Wire.IsOn && !year.IsRequested("wiring"))
            return Outcome.Leave("done-this-window", "It is wired already.");
        return year.Seen.Any(seen => seen.WireBiting == true)
            ? Outcome.Limit("No wire this season on the spot where it bit.")
            : Outcome.Pass;
    }
}
