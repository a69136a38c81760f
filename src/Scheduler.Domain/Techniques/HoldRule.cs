namespace Scheduler.Domain.Techniques;

/// <summary>A weather hold, and for which trees it holds this work up.</summary>
public sealed record HoldRule(string Hold, AppliesTo For) : IRuleRow;
