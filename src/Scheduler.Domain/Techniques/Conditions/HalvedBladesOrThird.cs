namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>One-flush trees but hornbeams lose half of each blade, or at most three leaves in ten.</summary>
public sealed class HalvedBladesOrThird : Condition
{
    public override string Id => "halved-blades-or-third";

    public override Outcome Test(TreeYear year) => year.Species.Id.StartsWith("carpinus-", StringComparison.Ordinal)
        ? Outcome.Pass
        : Outcome.Limit("It will not grow new leaves this year: halve the blades, or take at most three leaves in ten.");
}
