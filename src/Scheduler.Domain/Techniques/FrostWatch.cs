using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// When a night is cold enough to bring a tree in. The bench minimum that counts depends on how far growth has come, on
/// root work within six weeks and on a leaf strip; the highest value that applies decides.
/// </summary>
internal sealed class FrostWatch(TreeYear year)
{
    private readonly Thresholds _limits = year.Thresholds;

    /// <summary>Acts at or below this on the evening of a day [C]; null: out of season.</summary>
    public double? ActsAtC(LocalDate evening)
    {
        if (year.IsIndoors)
            return null;
        if (year.Group.GrowsWheneverWarm)
            return _limits.ActWarmClimateC.Value;
        double? act = LeafPhaseC(evening);
        act = Higher(act, FlowerPhaseC(evening));
        if (HasFreshRoots(evening))
            act = Higher(act, _limits.ActFreshRootsC.Value);
        if (year.IsDoneOrDoing("pre-push-defoliation") && !HasHardened(evening))
            act = Higher(act, _limits.ActStrippedC.Value);
        return act;
    }

    public bool HasFreshRoots(LocalDate evening) =>
        year.Log.LastRootWork is { } work && Period.DaysBetween(work, evening) is >= 0 and var days && days <= _limits.FreshRootsDays.Value;

    public bool Triggers(LocalDate evening) => year.Nights.MinC(evening) is { } min && ActsAtC(evening) is { } act && min <= act;

    /// <summary>The answer for today: bring in tonight, armed, or out of season.</summary>
    public (Verdict Verdict, IReadOnlyList<Reason> Reasons, Trigger? Opens) Today()
    {
        if (ActsAtC(year.Today) is not { } act)
            return (Verdict.Leave, [year.Because("not-triggered", "Nothing tender is open.")], null);
        if (year.Nights.MinC(0) is not { } tonight)
        {
            const string look = "No forecast for tonight is known; look at a thermometer on the bench.";
            return (Verdict.Ask, [year.Because("fact-missing", look)], new BenchMinTrigger(act));
        }
        var text = $"Tonight's minimum at the bench is about {Degrees(tonight)}, and it acts at {Degrees(act)}.{Guess}";
        List<Reason> reasons = [year.Because("frost-trigger", text)];
        if (HasFreshRoots(year.Today))
            reasons.Add(year.Because("fresh-roots"));
        if (tonight <= act)
            return (Verdict.DoNow, reasons, new BenchMinTrigger(act));
        for (var night = 1; night < _limits.FrostLookNights.Value; night++)
        {
            if (!Triggers(year.Today.PlusDays(night)))
                continue;
            var soon = $"In {night} days the bench may fall to {Degrees(year.Nights.MinC(night)!.Value)}.{Guess}";
            return (Verdict.Wait, [year.Because("frost-trigger", soon)], new DaysTrigger(night, night));
        }
        return (Verdict.Wait, [year.Because("not-triggered", $"Armed; it acts at {Degrees(act)} at the bench.{Guess}")], new BenchMinTrigger(act));
    }

    /// <summary>
    /// Runs of nights that trigger, known by their first evening. Those of the last days stay, so that what was announced
    /// ends as missed or done instead of being taken back.
    /// </summary>
    public IReadOnlyList<WorkWindow> Windows(Technique technique)
    {
        var windows = new List<WorkWindow>();
        var last = year.Today.PlusDays((int)_limits.FrostWindowNights.Value - 1);
        LocalDate? first = null;
        var begin = year.Garden.Days.Count > 0 ? year.Garden.Days[0].Date.PlusDays(-1) : last;
        for (var evening = begin; evening <= last.PlusDays(1); evening = evening.PlusDays(1))
        {
            if (evening <= last && Triggers(evening))
            {
                first ??= evening;
                continue;
            }
            if (first is { } from)
                windows.Add(Window(technique, from, evening.PlusDays(-1)));
            first = null;
        }
        return windows;
    }

    private string Guess => year.Nights.IsGuessed ? " Cloud and wind are not known, so the night counts as clear and calm." : "";

    private static string Degrees(double value) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{value:0.#} C");

    private WorkWindow Window(Technique technique, LocalDate first, LocalDate last)
    {
        var mode = technique.Modes[0];
        var judgement = new Judgement { Technique = technique, Mode = mode, Year = year, Verdict = Verdict.DoNow, Reasons = [] };
        var lowest = year.Nights.LowestC(Period.DaysBetween(year.Today, first), Period.DaysBetween(first, last) + 1);
        var text = $"The bench may fall to {Degrees(lowest!.Value)}; opened growth needs more than {Degrees(ActsAtC(last)!.Value)}.{Guess}";
        List<Reason> reasons = [year.Because("frost-trigger", text)];
        if (HasFreshRoots(first))
            reasons.Add(year.Because("fresh-roots"));
        var isDone = year.Log.Last(technique.Id)?.Date >= first;
        var state = isDone ? WindowState.Done : last < year.Today ? WindowState.Missed : first <= year.Today ? WindowState.Open : WindowState.Forecast;
        var growthYear = year.Year;
        var key = new WindowKey(year.Tree.Id, technique.Id, mode.Id, growthYear.Year, growthYear.DayOf(first));
        return WindowWriter.Plain(judgement, key, DateBand.On(first), DateBand.On(last.PlusDays(1)), state, reasons);
    }

    private double? LeafPhaseC(LocalDate evening)
    {
        if (HasHardened(evening))
            return null;
        if (IsReached(9, evening))
            return _limits.ActLeavesOpenC.Value;
        if (IsReached(7, evening))
            return _limits.ActBudBurstC.Value;
        return IsReached(1, evening) ? _limits.ActSwellingC.Value : null;
    }

    private double? FlowerPhaseC(LocalDate evening)
    {
        if (IsReached(69, evening))
            return null;
        if (IsReached(60, evening))
            return _limits.ActBloomC.Value;
        return IsReached(55, evening) ? _limits.ActLeavesOpenC.Value : null;
    }

    private bool HasHardened(LocalDate evening) => year.Seen.Hardened == true || IsReached(91, evening);

    // Today by everything that is known; other evenings by the clock's likely date.
    private bool IsReached(int bbch, LocalDate evening)
    {
        if (evening < year.Today)
            return year.Band(bbch).Likely <= evening;
        var today = year.Reached(bbch);
        return today == Truth.Yes || (evening > year.Today || today == Truth.Unknown) && year.Band(bbch).Likely <= evening;
    }

    private static double? Higher(double? one, double? other) => one is null || other > one ? other : one;
}
