namespace Scheduler.Domain.Techniques;

/// <summary>
/// A condition on growth that opens, closes or bars work: a phase, a leaf count, heat since an event, days to frost.
/// A closed set of kinds, one small file each. Each says on which day of a draw it first holds, whether it holds today,
/// and how it is written as data (<see cref="Fields"/>) and in words.
/// </summary>
public abstract record Trigger
{
    /// <summary>The same as names and values, ready to be written as one JSON object.</summary>
    public abstract IReadOnlyDictionary<string, object> Fields { get; }

    /// <summary>The same in words, to stand after "opens when" or "until".</summary>
    public abstract string Words { get; }

    /// <summary>What the eye can tell of it, to stand after "look whether"; null: it is counted, not seen.</summary>
    public virtual string? Sight => Words;

    /// <summary>What to look for, or to log, where the clock alone cannot tell whether it holds today.</summary>
    public virtual string Question => Sight is { } sight ? $"Look whether {sight}." : $"The clock is not sure of it yet: {Words}.";

    /// <summary>
    /// Axis day on which it first holds in one draw of the outlook. Infinity: not this growth year. Not a number: only
    /// the owner's eye can tell, so a forecast leaves it out.
    /// </summary>
    public abstract double DayOf(TreeYear year, int draw, Side side);

    /// <summary>The same for every draw at once. The array may be shared: it is not to be changed.</summary>
    public virtual double[] DaysOf(TreeYear year, Side side)
    {
        ArgumentNullException.ThrowIfNull(year);
        var days = new double[year.Outlook.DrawCount];
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = DayOf(year, draw, side);
        return days;
    }

    /// <summary>Whether it holds today, as far as observations, the log and the clock can tell.</summary>
    public abstract Truth Today(TreeYear year, Side side);

    /// <summary>True when what was seen says that it can no longer come true this growth year.</summary>
    public virtual bool IsRuledOut(TreeYear year) => false;

    /// <summary>What is still waited for: parts already met, or out of reach, are left out.</summary>
    public virtual Trigger StillWaited(TreeYear year, Side side) => this;
}

/// <summary>A range counts as an opening from its lower number on, and as a closing after its upper one.</summary>
public enum Side { Opening, Closing }

/// <summary>What is known of a fact. Unknown leads to a question, never to a guess.</summary>
public enum Truth { No, Unknown, Yes }
