namespace Scheduler.Domain.Techniques;

/// <summary>A reason for the work.</summary>
public sealed record CauseRule(string Reason, AppliesTo For) : IRuleRow;
