namespace Scheduler.Domain.Techniques;

/// <summary>
/// A weather hold by id, and the trees it holds for. With <see cref="Only"/> it holds up that part of the work alone, which is
/// told as a limit of the rest.
/// </summary>
/// <param name="Only">What waits, to begin a sentence ("Cuts over 1 cm"); null: the whole work waits.</param>
public sealed record HoldRule(string Hold, AppliesTo For, string? Only = null) : IRuleRow;
