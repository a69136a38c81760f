namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In branch building only on a cane that will not become a branch.</summary>
public sealed class CaneNotABranch : Condition
{
    public override string Id => "cane-not-a-branch";

    public override Outcome Test(TreeYear year) =>
        year.Seen.Any(seen => seen.Organ is "base-canes" or "suckers")
            ? Outcome.Limit("Only canes that will not become branches.")
            : Outcome.Bar("pinching-thins");
}
