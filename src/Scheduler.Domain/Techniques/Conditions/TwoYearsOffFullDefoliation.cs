namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A refined tree loses all leaves at most every third year.</summary>
public sealed class TwoYearsOffFullDefoliation : Condition
{
    public override string Id => "two-years-off-full-defoliation";

    public override Outcome Test(TreeYear year) => YearOffFullDefoliation.Test(year, 2);
}
