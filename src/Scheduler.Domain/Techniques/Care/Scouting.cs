using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// A look for pest and disease, weekly in growth and fortnightly at rest. The heat since the year's begin is told with it,
/// because pests keep to heat better than to dates: what is noted with it becomes the garden's own table.
/// </summary>
internal sealed class Scouting(Technique technique, ScoutingRules rules, TreeYear year) : CareRule(technique, year)
{
    private static readonly string[] ForcedRegrowth = ["full-defoliation", "partial-defoliation", "decandling"];

    public override CareFinding Today()
    {
        var atRest = CareClock.IsAtRest(Year);
        var every = (int)(atRest ? rules.RestDays : rules.GrowthDays).Value;
        var since = LastLook is { } look ? Period.DaysBetween(look, Year.Today) : (int?)null;
        List<Reason> reasons = Year.Seen.PestSigns ? [Year.Because("pest-found")] : [];
        if (since < every)
        {
            reasons.Add(Year.Because("looked-lately", $"Last looked at {since} days ago; a look is due every {every} days now."));
            return Told(new(Verdict.Wait, reasons, new DaysTrigger(every - since.Value, every - since.Value)), atRest, every);
        }
        reasons.Add(Year.Because("look-due", since is null ? $"Not looked at yet; every {every} days now." : $"Last looked at {since} days ago."));
        if (Array.Exists(ForcedRegrowth, work => Year.Log.Last(work) is not null))
            reasons.Add(Year.Because("look-due", "New growth after the loss of leaves is soft: aphids and mildew go there first."));
        return Told(new(Verdict.DoNow, reasons), atRest, every);
    }

    // A look is logged as work, or as an observation that says whether there were signs.
    private LocalDate? LastLook
    {
        get
        {
            var logged = Year.Log.LastEver(Technique.Id)?.Date;
            var seen = Year.Seen.LastPestLook;
            return logged is null || seen > logged ? seen ?? logged : logged;
        }
    }

    private CareFinding Told(CareFinding finding, bool atRest, int everyDays)
    {
        var amount = new Dictionary<string, object> { ["look"] = atRest ? "fortnightly" : "weekly", ["everyDays"] = everyDays };
        if (HeatSinceRest is { } heatCd)
            amount["heat10Cd"] = heatCd;
        var heat = HeatSinceRest is { } told ? $" Heat above 10 C so far: {told} degree-days; note it, and what is in bloom, with the first sign." : "";
        return finding with
        {
            Amount = amount,
            AmountText = $"Leaf undersides, shoot tips, forks, bark, drainage holes and the rim of the pot.{heat}"
        };
    }

    // From the day heat counts on, with the days known so far.
    private double? HeatSinceRest
    {
        get
        {
            if (Year.Outlook.DrawCount == 0 || Year.TodayDay <= Year.Year.HeatStartDay)
                return null;
            var total = Year.MemberOf(0).HeatCd(10);
            return Math.Round(SeasonMember.HeatAt(total, Year.TodayDay) - SeasonMember.HeatAt(total, Year.Year.HeatStartDay));
        }
    }
}
