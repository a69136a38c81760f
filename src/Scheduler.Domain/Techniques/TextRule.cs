namespace Scheduler.Domain.Techniques;

/// <summary>A sentence for the trees it applies to.</summary>
public sealed record TextRule(AppliesTo For, string Text) : IRuleRow;
