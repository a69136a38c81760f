using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>A promise made by an answer. <see cref="On"/> lists the verdicts that make it.</summary>
public sealed record FollowUpRule(
    AppliesTo For, IReadOnlyList<Verdict> On, string What, Trigger When, string? Technique, string Text, Provenance Provenance);
