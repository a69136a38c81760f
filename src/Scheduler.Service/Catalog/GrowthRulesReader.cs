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
            FlowerBudsBeforeBloomCd = Heat("flowerBudsBeforeBloomCd"),
            FullBloomAfterCd = Heat("fullBloomAfterCd"),
            PetalsDownAfterCd = Heat("petalsDownAfterCd"),
            ShortChillPenalty = map.Figure("shortChillPenalty", 0, 5),
            LeastChillShare = Share("leastChillShare"),
            LeafFallDayLengthHours = map.Figure("leafFallDayLengthHours", 6, 14),
            LeafFallMeanC = map.Figure("leafFallMeanC", -5, 20),
            EvergreenRestNightC = map.Figure("evergreenRestNightC", -10, 15),
            PriorSpread = map.Figure("priorSpread", 0.01, 1),
            TrackSpread = map.Figure("trackSpread", 0.01, 1),
            YearSpread = map.Figure("yearSpread", 0.01, 1),
            LeastHalfWidthDays = map.Figure("leastHalfWidthDays", 0, 60)
        };
        if (rules.LeafTipsShare.Value > rules.LeavesSeparateShare.Value)
            map.Fault("leafTipsShare", null, "lies above leavesSeparateShare", "Leaf tips show before leaves separate.");
        if (rules.FullBloomAfterCd.Value > rules.PetalsDownAfterCd.Value)
            map.Fault("fullBloomAfterCd", null, "lies above petalsDownAfterCd", "Full bloom comes before petals fall.");
        map.RefuseUnknownKeys();
        return rules;

        Figure Share(string key) => map.Figure(key, 0, 1);
        Figure Heat(string key) => map.Figure(key, 0, 1000);
    }
}
