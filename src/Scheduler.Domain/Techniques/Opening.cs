namespace Scheduler.Domain.Techniques;

/// <summary>One of several times in a growth year at which work opens and closes. No closing: open until something else ends it.</summary>
public sealed record Opening(Trigger Opens, Trigger? Closes = null);
