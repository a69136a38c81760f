namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>The owner keeps the outline trimmed, which is the default.</summary>
public sealed class KeptTrimmed : Condition
{
    public override string Id => "kept-trimmed";

    public override Outcome Test(TreeYear year) => year.Setting("outline", "2") is "free"
        ? Outcome.Leave("owner-preference", "You let it grow out.")
        : Outcome.Pass;
}
