namespace Scheduler.Domain.Techniques;

/// <summary>
/// A test that a table cell or a technique names by id. A closed set, one small file each under Conditions; which
/// technique asks for which, and why, is data.
/// </summary>
public abstract class Condition
{
    public abstract string Id { get; }

    /// <summary>What the test makes of the technique on this tree.</summary>
    public abstract Outcome Test(TreeYear year);
}

/// <summary>What follows from a condition.</summary>
public enum Effect
{
    Pass,
    /// <summary>Allowed, but only so much; the sentence says how much.</summary>
    Limit,
    /// <summary>Nobody can tell without a look; the sentence says what to look for.</summary>
    Ask,
    /// <summary>Allowed once the trigger holds.</summary>
    Time,
    Leave,
    Bar
}

/// <summary>Effect, reason id and sentence (the catalog's own when null), and when it ends.</summary>
public sealed record Outcome(Effect Effect, string? Reason = null, string? Text = null, Trigger? Until = null)
{
    public static readonly Outcome Pass = new(Effect.Pass);

    public static Outcome Limit(string text) => new(Effect.Limit, Text: text);
    public static Outcome Ask(string text) => new(Effect.Ask, "fact-missing", text);
    public static Outcome Leave(string reason, string? text = null) => new(Effect.Leave, reason, text);
    public static Outcome Bar(string reason, string? text = null, Trigger? until = null) => new(Effect.Bar, reason, text, until);
    public static Outcome Time(Trigger until) => new(Effect.Time, "not-open-yet", null, until);
}
