namespace Scheduler.Domain.Techniques;

/// <summary>
/// One cell of the tables group x technique and stage x technique: passes, is barred for a reason, or passes under
/// conditions of the closed set. Written <c>yes</c>, <c>no: reason-id</c>, or condition ids divided by blanks.
/// </summary>
public sealed record Cell(string? BarReason, IReadOnlyList<string> Conditions)
{
    public static readonly Cell Yes = new(null, []);

    public static Cell No(string reason) => new(reason, []);

    public static Cell If(params string[] conditions) => new(null, conditions);

    public static Cell Parse(string text)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(text);
        var trimmed = text.Trim();
        if (trimmed == "yes")
            return Yes;
        return trimmed.StartsWith("no:", StringComparison.Ordinal)
            ? No(trimmed[3..].Trim())
            : If(trimmed.Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }
}

/// <summary>What a goal makes of a technique.</summary>
public enum GoalWish
{
    /// <summary>Allowed, but this goal does not ask for it.</summary>
    Neutral,
    /// <summary>This goal asks for it.</summary>
    Wanted,
    /// <summary>Wanted on rivals of the leader only, where it is booked as leader change; the rest is left to grow.</summary>
    RivalsOnly,
    /// <summary>Asks for free growth: an outline trim is barred.</summary>
    FreeGrowth,
    /// <summary>Barred.</summary>
    Barred
}

/// <summary>
/// One cell of the table goal x technique. Written <c>wanted</c>, <c>neutral</c>, <c>rivals</c>, <c>free: reason-id</c>
/// or <c>no: reason-id</c>.
/// </summary>
public sealed record GoalCell(GoalWish Wish, string? Reason)
{
    public static readonly GoalCell Neutral = new(GoalWish.Neutral, null);
    public static readonly GoalCell Wanted = new(GoalWish.Wanted, null);

    /// <summary>Null when the text is none of the forms.</summary>
    public static GoalCell? Parse(string text)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(text);
        var parts = text.Split(':', 2, StringSplitOptions.TrimEntries);
        return (parts[0], parts.Length) switch
        {
            ("wanted", 1) => Wanted,
            ("neutral", 1) => Neutral,
            ("rivals", 1) => new(GoalWish.RivalsOnly, "leaves-are-fuel"),
            ("free", 2) => new(GoalWish.FreeGrowth, parts[1]),
            ("no", 2) => new(GoalWish.Barred, parts[1]),
            _ => null
        };
    }
}
