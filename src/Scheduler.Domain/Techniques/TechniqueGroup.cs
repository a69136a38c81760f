namespace Scheduler.Domain.Techniques;

/// <summary>Plants that answer alike to hand work.</summary>
/// <param name="Code">Code such as <c>MPJ</c>.</param>
/// <param name="Behavior">What matters about it, in a sentence.</param>
/// <param name="SeveralFlushes">Flushes again within the growth year.</param>
/// <param name="GrowsWheneverWarm">Has no spring of its own: its windows follow warm nights and lengthening days.</param>
/// <param name="Conifer">Needles or scales, no leaf work.</param>
/// <param name="DormancyCut">Deciduous, so the outline can be cut in dormancy.</param>
public sealed record TechniqueGroup(
    string Code, string Name, string Behavior, bool SeveralFlushes, bool GrowsWheneverWarm, bool Conifer, bool DormancyCut)
{
    /// <summary>Code of the group whose rules hold for this one wherever it is not named itself; null: it has its own throughout.</summary>
    public string? Like { get; init; }
}
