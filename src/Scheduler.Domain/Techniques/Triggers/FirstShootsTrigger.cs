namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>
/// The first shoots have reached a BBCH code, though fewer than half have: work done shoot by shoot opens with them.
/// Only the owner's eye tells that; the clock places the day on which half of the shoots are there.
/// </summary>
public sealed record FirstShootsTrigger(int Bbch) : Trigger
{
    private readonly PhaseTrigger _half = new(Bbch);

    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["bbch"] = Bbch, ["firstShoots"] = true };

    public override string Words => $"{PhaseWords.Of(Bbch)} on the first shoots";

    public override double DayOf(TreeYear year, int draw, Side side) => _half.DayOf(year, draw, side);

    public override double[] DaysOf(TreeYear year, Side side) => _half.DaysOf(year, side);

    public override Truth Today(TreeYear year, Side side)
    {
        ArgumentNullException.ThrowIfNull(year);
        return year.Seen.IsFirstShootsAt(Bbch) ? Truth.Yes : _half.Today(year, side);
    }

    /// <summary>The owner waits for the phase; who sees a single shoot there earlier says so.</summary>
    public override Trigger StillWaited(TreeYear year, Side side) => _half;
}
