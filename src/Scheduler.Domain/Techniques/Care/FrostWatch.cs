using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// When a night is cold enough to bring a tree in. The bench minimum that counts depends on how far growth has come, on
/// root work within six weeks and on a leaf strip; the highest value that applies decides.
/// </summary>
internal sealed class FrostWatch(Technique technique, TreeYear year) : CareRule(technique, year)
{
    private static readonly string[] ForcedFlush = ["full-defoliation", "partial-defoliation", "decandling"];
    private Thresholds Limits => Year.Thresholds;

    // No night that is warmer needs a look at how far growth has come.
    private double MostTenderC => Year.Group.GrowsWheneverWarm ? Limits.ActWarmClimateC.Value : Math.Max(
        Math.Max(Math.Max(Limits.ActSwellingC.Value, Limits.ActBudBurstC.Value), Math.Max(Limits.ActLeavesOpenC.Value, Limits.ActBloomC.Value)),
        Math.Max(Limits.ActFreshRootsC.Value, Limits.ActStrippedC.Value));

    /// <summary>Acts at or below this on the evening of a day [C]; null: out of season.</summary>
    public double? ActsAtC(LocalDate evening)
    {
        if (Year.IsIndoors)
            return null;
        if (Year.Group.GrowsWheneverWarm)
            return Limits.ActWarmClimateC.Value;
        // In the night that is still on growth stands where it stands today.
        if (IsNightOn(evening))
            evening = Year.Today;
        double? act = LeafPhaseC(evening);
        act = Higher(act, FlowerPhaseC(evening));
        if (IsSecondFlushTender(evening))
            act = Higher(act, Limits.ActLeavesOpenC.Value);
        if (HasFreshRoots(evening))
            act = Higher(act, Limits.ActFreshRootsC.Value);
        if (Year.IsDoneOrDoing("pre-push-defoliation") && !HasHardened(evening))
            act = Higher(act, Limits.ActStrippedC.Value);
        return act;
    }

    public bool HasFreshRoots(LocalDate evening) =>
        Year.Log.LastRootWork is { } work && Period.DaysBetween(work, evening) is >= 0 and var days && days <= Limits.FreshRootsDays.Value;

    public bool Triggers(LocalDate evening) => MinC(evening) is { } min && min <= MostTenderC && ActsAtC(evening) is { } act && min <= act;

    /// <summary>The answer for today: bring in tonight, armed, or out of season.</summary>
    public override CareFinding Today()
    {
        if (IsNightOn(Yesterday) && Triggers(Yesterday) && ActsAtC(Yesterday) is { } now)
        {
            var dawn = $"Before this dawn the bench may fall to {Degrees(MinC(Yesterday)!.Value)}, and it acts at {Degrees(now)}.{Guess}";
            return new(Verdict.DoNow, [Year.Because("frost-trigger", dawn)], new BenchMinTrigger(now));
        }
        if (ActsAtC(Year.Today) is not { } act)
            return new(Verdict.Leave, [Year.Because("not-triggered", "Nothing tender is open.")]);
        if (MinC(Year.Today) is not { } tonight)
        {
            const string look = "No forecast for tonight is known; look at a thermometer on the bench.";
            return new(Verdict.Ask, [Year.Because("fact-missing", look)], new BenchMinTrigger(act));
        }
        var text = $"Tonight's minimum at the bench is about {Degrees(tonight)}, and it acts at {Degrees(act)}.{Guess}";
        List<Reason> reasons = [Year.Because("frost-trigger", text)];
        if (HasFreshRoots(Year.Today))
            reasons.Add(Year.Because("fresh-roots"));
        if (tonight <= act)
            return new(Verdict.DoNow, reasons, new BenchMinTrigger(act));
        for (var night = 1; night < Limits.FrostLookNights.Value; night++)
        {
            if (!Triggers(Year.Today.PlusDays(night)))
                continue;
            var soon = $"In {night} days the bench may fall to {Degrees(MinC(Year.Today.PlusDays(night))!.Value)}.{Guess}";
            return new(Verdict.Wait, [Year.Because("frost-trigger", soon)], new DaysTrigger(night, night));
        }
        return new(Verdict.Wait, [Year.Because("not-triggered", $"Armed; it acts at {Degrees(act)} at the bench.{Guess}")], new BenchMinTrigger(act));
    }

    /// <summary>
    /// Runs of nights that trigger, known by their first evening. Those of the last days stay, so that what was announced
    /// ends as missed or done instead of being taken back.
    /// </summary>
    public override IEnumerable<WorkWindow> Windows()
    {
        if (!Year.IsCurrent)
            return [];
        var last = Year.Today.PlusDays((int)Limits.FrostWindowNights.Value - 1);
        var begin = Year.Garden.Days.Count > 0 ? Year.Garden.Days[0].Date.PlusDays(-1) : last;
        return Spells.Of(begin, last, Triggers).Select(spell => Window(spell.First, spell.Last));
    }

    private LocalDate Yesterday => Year.Today.PlusDays(-1);

    private bool IsNightOn(LocalDate evening) => Year.Garden.NightIsOn && evening == Yesterday;

    // Shelter that the tree already has keeps the worst off.
    private double? MinC(LocalDate evening) => Year.Nights.MinC(evening) + Shelter.WarmerC(Year);

    private string Guess => Year.Nights.IsGuessed ? " Cloud and wind are not known, so the night counts as clear and calm." : "";

    private WorkWindow Window(LocalDate first, LocalDate last)
    {
        var nights = Period.DaysBetween(first, last) + 1;
        var lowest = Year.Nights.LowestC(Period.DaysBetween(Year.Today, first), nights) + Shelter.WarmerC(Year);
        var text = $"The bench may fall to {Degrees(lowest!.Value)}; opened growth needs more than {Degrees(ActsAtC(last)!.Value)}.{Guess}";
        List<Reason> reasons = [Year.Because("frost-trigger", text)];
        if (HasFreshRoots(first))
            reasons.Add(Year.Because("fresh-roots"));
        var isDone = Year.Log.Last(Technique.Id)?.Date >= first;
        var state = IsNightOn(last) && !isDone ? WindowState.Open : Spells.State(first, last, Year.Today, isDone);
        var key = new WindowKey(Year.Tree.Id, Technique.Id, Technique.Modes[0].Id, Year.Year.Year, Year.Year.DayOf(first));
        return WindowWriter.Plain(Judged(Verdict.DoNow, []), key, DateBand.On(first), DateBand.On(last.PlusDays(1)), state, reasons);
    }

    private double? LeafPhaseC(LocalDate evening)
    {
        if (HasHardened(evening))
            return null;
        if (IsReached(9, evening))
            return Limits.ActLeavesOpenC.Value;
        if (IsReached(7, evening))
            return Limits.ActBudBurstC.Value;
        return IsReached(1, evening) ? Limits.ActSwellingC.Value : null;
    }

    private double? FlowerPhaseC(LocalDate evening)
    {
        if (IsReached(69, evening))
            return null;
        if (IsReached(60, evening))
            return Limits.ActBloomC.Value;
        return IsReached(55, evening) ? Limits.ActLeavesOpenC.Value : null;
    }

    // Shoots that came after leaves or candles were taken are as tender in autumn as the first were in spring.
    private bool IsSecondFlushTender(LocalDate evening)
    {
        if (evening < Year.Year.DateOf(Year.LongestDay) || Year.Seen.Any(seen => seen is { Flush: 2, Hardened: true }))
            return false;
        if (Year.Seen.Any(seen => seen is { Flush: 2, Bbch: >= 9 and < 91 }))
            return true;
        return Year.Group.SeveralFlushes && Array.Exists(ForcedFlush, work => Year.Log.Last(work)?.Date <= evening)
            && !IsSecondFlushHard(Year.Year.DayOf(evening));
    }

    private bool IsSecondFlushHard(int day) =>
        Percentiles.IsLikelyBy([.. Enumerable.Range(0, Year.Outlook.DrawCount).Select(Year.SecondFlushHardDay)], day);

    private bool HasHardened(LocalDate evening) => Year.Seen.Hardened == true || IsReached(91, evening);

    // Today by everything that is known; other evenings by the clock's likely date.
    private bool IsReached(int bbch, LocalDate evening)
    {
        if (evening < Year.Today)
            return Year.Band(bbch).Likely <= evening;
        // The most advanced shoots decide when growth begins to be tender.
        if (evening >= Year.Today && IsTenderFrom(bbch) && Year.Seen.Any(seen => seen.SomeAtBbch is { } some
            && GrowthScale.IsFlowerCode(some) == GrowthScale.IsFlowerCode(bbch) && some >= bbch && seen.Date >= Year.Today.PlusDays(-(int)Year.Thresholds.FreshObservationDays.Value)))
            return true;
        var today = Year.Reached(bbch);
        return today == Truth.Yes || (evening > Year.Today || today == Truth.Unknown) && Year.Band(bbch).Likely <= evening;
    }

    private static bool IsTenderFrom(int bbch) => bbch is not (69 or 91);

    private static double? Higher(double? one, double? other) => one is null || other > one ? other : one;
}
