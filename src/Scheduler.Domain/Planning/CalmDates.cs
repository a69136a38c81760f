using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Planning;

/// <summary>
/// Which dates of a window are announced, so that calendars do not flicker with every new forecast. An announced date stays while the
/// date now found lies within a tolerance of it that shrinks as the day draws near, and moves to the found one when it leaves it.
/// <para>tolerance [days] = min(share of the days ahead, share of the days from early to late, most), whole days, at least one beyond
/// the urgent days.</para>
/// <para>Always goes through: an opening or a close that comes sooner within the urgent days, a date that is
/// past while the window is not (or the reverse), any change of state, and everything that follows from the forecast (frost, heat, water).
/// What has opened keeps the day on which it did.</para>
/// <para>A window whose announced day has come without being open is announced for its late date, by which it is sure.</para>
/// The numbers are in config/planning.yaml.
/// </summary>
public sealed class CalmDates
{
    private readonly PlanningRules _rules;

    public CalmDates(PlanningRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        _rules = rules;
    }

    /// <summary>The window as found, with the dates to announce.</summary>
    /// <param name="announced">What calendars show of the same window.</param>
    /// <param name="found">What the rules find today.</param>
    public WorkWindow Announce(WorkWindow announced, WorkWindow found, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(announced);
        ArgumentNullException.ThrowIfNull(found);
        if (_rules.CareWork.Contains(found.Key.Technique) || announced.State == WindowState.Withdrawn)
            return found;
        if (IsOver(announced) && announced.State == found.State)
            return found with { Opens = announced.Opens, Closes = announced.Closes };
        var (opens, closes) = (Opens(announced, found, today), Closes(announced, found, today));
        return found with { Opens = opens, Closes = closes.Likely < opens.Likely ? Not(closes, opens) : closes };
    }

    /// <summary>How far a date may lie from the announced one without being news [days].</summary>
    /// <param name="daysAhead">Days to the nearer of both dates.</param>
    /// <param name="announced">As announced; a wide one says by itself that the date is uncertain.</param>
    public int ToleranceDays(int daysAhead, DateBand announced)
    {
        if (daysAhead <= _rules.CalmUrgentDays.Value)
            return 0;
        var tolerance = Math.Min(_rules.CalmMostDays.Value, daysAhead * _rules.CalmAheadPercent.Value / 100);
        if (announced is { Early: { } early, Late: { } late })
            tolerance = Math.Min(tolerance, Period.DaysBetween(early, late) * _rules.CalmBandPercent.Value / 100);
        return _rules.CalmMostDays.Value < 1 ? 0 : Math.Max(1, (int)tolerance);
    }

    private DateBand Opens(WorkWindow announced, WorkWindow found, LocalDate today)
    {
        if (announced.Opens.Likely is not { } was || found.Opens.Likely is not { } now)
            return found.Opens;
        var isOpenNow = found.State != WindowState.Forecast;
        if (!isOpenNow && Overdue(announced.Opens, found.Opens, today) is { } overdue)
            return overdue;
        if (was <= today)
            return isOpenNow ? HasCome(announced.Opens, found.Opens) : found.Opens;
        if (isOpenNow)
            return found.Opens;
        // What opens sooner than announced is told at once; a day later waits for the announced day itself.
        return Kept(announced.Opens, found.Opens, Later(now < was, ToleranceDays(DaysTo(today, was, now), announced.Opens)));
    }

    // More than half of the draws are past, and still it is not sure: found for tomorrow, day after day. It will be sure by the late date.
    private static DateBand? Overdue(DateBand announced, DateBand found, LocalDate today)
    {
        var tomorrow = today.PlusDays(1);
        if (found.Early != tomorrow || found.Likely != tomorrow || found.Late is not { } late || announced.Likely > today && announced.Likely != announced.Late)
            return null;
        return announced.Likely > today && Apart(announced.Late, late) <= 1 ? announced : new DateBand(tomorrow, late, late);
    }

    private DateBand Closes(WorkWindow announced, WorkWindow found, LocalDate today)
    {
        if (announced.Closes.Likely is not { } was || found.Closes.Likely is not { } now || (was < today) != (now < today))
            return found.Closes;
        if (IsOver(found) || was < today)
            return HasCome(announced.Closes, found.Closes);
        // A day longer than announced harms nobody until the announced day has come.
        return Kept(announced.Closes, found.Closes, Later(now < was || was <= today, ToleranceDays(DaysTo(today, was, now), announced.Closes)));
    }

    // A window is never announced to close before it opens.
    private static DateBand Not(DateBand closes, DateBand before) => new(
        closes.Early < before.Early ? before.Early : closes.Early, before.Likely, closes.Late < before.Late ? before.Late : closes.Late);

    private int Later(bool isUrgent, int toleranceDays) => isUrgent || _rules.CalmMostDays.Value < 1 ? toleranceDays : Math.Max(1, toleranceDays);

    // The likely date as announced; early and late follow once they have moved too far themselves.
    private static DateBand Kept(DateBand announced, DateBand found, int toleranceDays)
    {
        if (Apart(announced.Likely, found.Likely) > toleranceDays)
            return found;
        if (Apart(announced.Early, found.Early) <= toleranceDays && Apart(announced.Late, found.Late) <= toleranceDays)
            return announced;
        var likely = announced.Likely!.Value;
        return new DateBand(found.Early > likely ? likely : found.Early, likely, found.Late < likely ? likely : found.Late);
    }

    // A day that has come is no longer early or late.
    private static DateBand HasCome(DateBand announced, DateBand found) =>
        found.Early == found.Late ? DateBand.On(announced.Likely!.Value) : announced;

    private static int Apart(LocalDate? one, LocalDate? other) =>
        one == other ? 0 : one is { } a && other is { } b ? Math.Abs(Period.DaysBetween(a, b)) : int.MaxValue;

    private static int DaysTo(LocalDate today, LocalDate one, LocalDate other) => Period.DaysBetween(today, LocalDate.Min(one, other));

    private static bool IsOver(WorkWindow window) => window.State is WindowState.Done or WindowState.Missed;
}
