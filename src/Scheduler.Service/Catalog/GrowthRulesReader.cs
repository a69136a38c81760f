using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Catalog;

/// <summary>Reads <c>growth.yaml</c>: how growth points are placed between a species' own figures.</summary>
internal static class GrowthRulesReader
{
    public static GrowthRules Read(YamlMap map)
    {
        var rules = new GrowthRules
        {
            SwellBeginsShare = Share("swellBeginsShare"),
            LeafTipsShare = Share("leafTipsShare"),
            LeavesSeparateShare = Share("leavesSeparateShare"),
            HardenedAfterLeavesCd = Heat("hardenedAfterLeavesCd"),
            PreformedLeafCd = Heat("preformedLeafCd"),
            ShootHalfLengthShare = map.Figure("shootHalfLengthShare", 0.05, 0.95),
            LeafStepSpread = map.Figure("leafStepSpread", 0.01, 2),
            LeafCountError = map.Figure("leafCountError", 0.1, 3),
            RegrowthLeavesCd = Heat("regrowthLeavesCd"),
            FlowerBudsBeforeBloomCd = Heat("flowerBudsBeforeBloomCd"),
            FullBloomAfterCd = Heat("fullBloomAfterCd"),
            PetalsDownAfterCd = Heat("petalsDownAfterCd"),
            ShortChillPenalty = map.Figure("shortChillPenalty", 0, 5),
            LeastChillShare = Share("leastChillShare"),
            LeafFallDayLengthHours = map.Figure("leafFallDayLengthHours", 6, 14),
            LeafFallMeanC = map.Figure("leafFallMeanC", -5, 20),
            EvergreenRestNightC = map.Figure("evergreenRestNightC", -10, 15),
            LeafColorBeforeHalfDays = map.Figure("leafColorBeforeHalfDays", 0, 60),
            LeafFallStepDays = map.Figure("leafFallStepDays", 0, 60),
            AutumnSpreadDays = map.Figure("autumnSpreadDays", 1, 40),
            AutumnYearSpreadDays = map.Figure("autumnYearSpreadDays", 1, 40),
            AutumnStepSpreadDays = map.Figure("autumnStepSpreadDays", 0, 40),
            AutumnDaysPerCoolingC = map.Figure("autumnDaysPerCoolingC", 0, 20),
            PriorSpread = map.Figure("priorSpread", 0.01, 1),
            TrackSpread = map.Figure("trackSpread", 0.01, 1),
            YearSpread = map.Figure("yearSpread", 0.01, 1),
            LeastHalfWidthDays = map.Figure("leastHalfWidthDays", 0, 60)
        };
        if (rules.LeafTipsShare.Value > rules.LeavesSeparateShare.Value)
            map.Fault("leafTipsShare", null, "lies above leavesSeparateShare", "Leaf tips show before leaves separate.");
        if (rules.FullBloomAfterCd.Value > rules.PetalsDownAfterCd.Value)
            map.Fault("fullBloomAfterCd", null, "lies above petalsDownAfterCd", "Full bloom comes before petals fall.");
        if (rules.LeafFallStepDays.Value > rules.LeafColorBeforeHalfDays.Value)
            map.Fault("leafColorBeforeHalfDays", null, "lies below leafFallStepDays", "Leaves color before they fall.");
        map.RefuseUnknownKeys();
        return rules;

        Figure Share(string key) => map.Figure(key, 0, 1);
        Figure Heat(string key) => map.Figure(key, 0, 1000);
    }
}
