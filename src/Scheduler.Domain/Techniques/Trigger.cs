namespace Scheduler.Domain.Techniques;

/// <summary>
/// A condition on growth that opens, closes or bars work: a phase, a leaf count, heat since an event, days to frost.
/// A closed set of kinds, one small file each; each can say on which axis day of a draw it first holds.
/// </summary>
public abstract record Trigger;
