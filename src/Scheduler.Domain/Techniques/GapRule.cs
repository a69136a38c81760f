using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>After other work of this season, wait until the trigger holds (its heat counts from that work).</summary>
public sealed record GapRule(IReadOnlyList<string> After, Trigger Until, Provenance Provenance);
