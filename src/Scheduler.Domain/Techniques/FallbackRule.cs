namespace Scheduler.Domain.Techniques;

/// <summary>What to do instead.</summary>
public sealed record FallbackRule(AppliesTo For, IReadOnlyList<string> Techniques, Trigger? When, string Text);
