using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// No more than a share of the leaf area is taken within six weeks, whatever the techniques. What each usually takes is
/// an estimate of the catalog, unless the log says how much it was.
/// </summary>
internal static class LeafAreaCap
{
    private const double ShareOfPart = 0.3;

    /// <summary>Full defoliation has conditions of its own instead.</summary>
    public static bool Binds(Technique technique, TechniqueMode mode) =>
        technique.Id != "full-defoliation" && LoadBudget.LoadOf(technique, mode).LeafAreaPercent > 0;

    public static double LeftPercent(string technique, TreeYear year) => LeftPercent(technique, year, 0);

    public static int DaysUntilRoom(string technique, TreeYear year)
    {
        var days = 1;
        while (days < year.Thresholds.LeafAreaCapDays.Value && LeftPercent(technique, year, days) < year.Thresholds.LeastLeafWorkPercent.Value)
            days++;
        return days;
    }

    private static double LeftPercent(string technique, TreeYear year, int daysAhead)
    {
        var from = year.Today.PlusDays(daysAhead - (int)year.Thresholds.LeafAreaCapDays.Value);
        var taken = 0d;
        foreach (var work in year.Whole.Log.ThisYear)
        {
            // Visits of the same piece of work belong to it.
            if (work.Date > from && !(work.Technique == technique && Period.DaysBetween(work.Date, year.Today) <= year.Thresholds.VisitDays.Value))
                taken += Taken(work, year);
        }
        var cap = year.Health == Health.Vigorous ? year.Thresholds.LeafAreaCapVigorousPercent : year.Thresholds.LeafAreaCapSoundPercent;
        return Math.Max(0, cap.Value - taken);
    }

    private static double Taken(WorkRecord work, TreeYear year)
    {
        var usual = year.Craft.Find(work.Technique)?.Load.LeafAreaPercent ?? 0;
        if (usual == 0)
            return 0;
        if (work.LivingTopPercent is { } told)
            return told;
        return work.CrownZone is null && work.Branch is null ? usual : usual * ShareOfPart;
    }
}
