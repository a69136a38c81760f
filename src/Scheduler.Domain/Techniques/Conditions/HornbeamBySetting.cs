namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Hornbeams lose all leaves only where the owner's setting 19 allows it; elsewhere their inside was seen to die back.</summary>
public sealed class HornbeamBySetting : Condition
{
    public override string Id => "hornbeam-by-setting";

    public override Outcome Test(TreeYear year) =>
        year.Species.Id.StartsWith("carpinus-", StringComparison.Ordinal) && !Situation.IsOn(year, "19")
            ? Outcome.Bar("off-by-setting", "Inner twigs of a hornbeam die when it is emptied; take outer leaves or part of the leaves.")
            : Outcome.Pass;
}
