namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Flower buds are told apart for certain.</summary>
public sealed class FlowerBudsCertain : Condition
{
    public override string Id => "flower-buds-certain";

    public override Outcome Test(TreeYear year) => year.Seen.FlowerBuds is "certain" or "overtopped"
        ? Outcome.Pass
        : Outcome.Ask("Tell flower buds apart first. They are plumper and blunter, with the cluster inside.");
}
