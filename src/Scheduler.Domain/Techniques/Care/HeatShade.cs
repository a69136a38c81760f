using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// Shade by the forecast maximum of today or tomorrow, lower for tender or freshly bared leaves, or by the measured root
/// ball. The pot comes first.
/// </summary>
internal sealed class HeatShade(Technique technique, HeatShadeRules rules, TreeYear year) : CareRule(technique, year)
{
    public override CareFinding Today()
    {
        if (Year.IsIndoors || CareClock.IsAtRest(Year))
            return new(Verdict.Leave, [Year.Because("not-triggered", Year.IsIndoors ? "It stands indoors." : "The tree is at rest.")]);
        var ball = Year.Garden.RootBallC;
        if (ball >= rules.BallActC.Value)
            return new(Verdict.DoNow, [Year.Because("heat-trigger", $"The root ball is at {Degrees(ball.Value)}; roots suffer from {Degrees(rules.BallActC.Value)} on.")]);
        var cautions = ball >= rules.BallCautionC.Value ? new[] { $"The root ball is at {Degrees(ball.Value)}; shade the pot before roots stop growing." } : [];
        if (ActsAtC is not { } act)
            return new(Verdict.Leave, [Year.Because("not-triggered", "It bears heat; look at the pot.")]) { Cautions = cautions };
        var opens = new MaxTrigger(act);
        for (var ahead = 0; ahead < rules.LookDays.Value; ahead++)
        {
            if (!(MaxC(Year.Today.PlusDays(ahead)) >= act))
                continue;
            var text = $"{(ahead == 0 ? "Today" : ahead == 1 ? "Tomorrow" : $"In {ahead} days")} up to {Degrees(MaxC(Year.Today.PlusDays(ahead))!.Value)}; it acts at {Degrees(act)}.";
            return ahead <= 1
                ? new(Verdict.DoNow, [Year.Because("heat-trigger", text)], opens) { Cautions = cautions }
                : new(Verdict.Wait, [Year.Because("heat-trigger", text)], new DaysTrigger(ahead - 1, ahead - 1)) { Cautions = cautions };
        }
        return new(Verdict.Wait, [Year.Because("not-triggered", $"Armed; it acts at {Degrees(act)}.")], opens) { Cautions = cautions };
    }

    public override IEnumerable<WorkWindow> Windows()
    {
        if (!Year.IsCurrent || Year.IsIndoors || CareClock.IsAtRest(Year) || ActsAtC is not { } act || Year.Garden.Days.Count == 0)
            return [];
        var last = Year.Today.PlusDays((int)rules.LookDays.Value - 1);
        return Spells.Of(Year.Garden.Days[0].Date, last, day => MaxC(day) >= act).Select(spell => Window(spell.First, spell.Last, act));
    }

    // The lowest limit that holds for the tree; null: it bears what the forecast may bring.
    private double? ActsAtC
    {
        get
        {
            double? limit = rules.HeatBearing.Any(trees => trees.Fits(Year)) ? null : rules.EveryTreeC.Value;
            foreach (var row in rules.Lower)
            {
                if (row.For.Fits(Year) && !(row.Limit.Value >= limit))
                    limit = row.Limit.Value;
            }
            return limit;
        }
    }

    private double? MaxC(LocalDate date)
    {
        foreach (var day in Year.Garden.Days)
        {
            if (day.Date == date)
                return day.MaxC;
        }
        return null;
    }

    // Shade comes off some days after the last hot one, so that is when the window closes.
    private WorkWindow Window(LocalDate first, LocalDate last, double actC)
    {
        var hottest = Enumerable.Range(0, Period.DaysBetween(first, last) + 1).Max(day => MaxC(first.PlusDays(day))!.Value);
        var reason = Year.Because("heat-trigger", $"Up to {Degrees(hottest)} are forecast; it acts at {Degrees(actC)}. Off again after {rules.DaysUnder.Value:0} days under that.");
        var state = Spells.State(first, last, Year.Today, Year.Log.Last(Technique.Id)?.Date >= first.PlusDays(-1));
        var key = new WindowKey(Year.Tree.Id, Technique.Id, Technique.Modes[0].Id, Year.Year.Year, Year.Year.DayOf(first));
        return WindowWriter.Plain(Judged(Verdict.DoNow, []), key, DateBand.On(first), DateBand.On(last), state, [reason]);
    }
}
