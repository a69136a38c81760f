using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Catalog;

/// <summary>Reads the part <c>clock</c> of <c>growth.yaml</c>: the shapes of the development index and how evidence is weighed.</summary>
internal static class ClockRulesReader
{
    public static ClockRules Read(YamlMap map)
    {
        return new ClockRules
        {
            Trees = Group("trees"),
            Fruit = Group("fruit"),
            Vines = Group("vines"),
            FruitGenera = Genera("fruitGenera"),
            VineGenera = Genera("vineGenera"),
            YearSpread = Figure("yearSpread", 0.01, 1),
            SpeciesSpread = Figure("speciesSpread", 0.01, 2),
            KinSpread = Figure("kinSpread", 0.01, 2),
            AnySpread = Figure("anySpread", 0.01, 2),
            UsualSpreadDays = Figure("usualSpreadDays", 1, 60),
            YearSpreadDays = Figure("yearSpreadDays", 1, 60),
            FewSprings = Figure("fewSprings", 0, 100),
            HuberSpreads = Figure("huberSpreads", 0.5, 10),
            SlopeYears = Figure("slopeYears", 0, 1000),
            SlopePrior = Figure("slopePrior", 0, 1.25),
            ErrorYears = Figure("errorYears", 0.1, 1000),
            ErrorScale = Figure("errorScale", 0.1, 5),
            PriorErrorDays = Figure("priorErrorDays", 0.5, 60),
            WarmBiasDaysPerYear = Figure("warmBiasDaysPerYear", 0, 1),
            TraceWidening = Figure("traceWidening", 0, 2)
        };

        double Figure(string key, double low, double high) => map.Figure(key, low, high).Value;

        ShapeGroup Group(string key)
        {
            var group = map.Map(key);
            if (map.Has(key))
                group.Origin();
            var shapes = group.Maps("shapes").Select(Shape).ToList();
            if (map.Has(key) && shapes.Count == 0)
                group.Fault("shapes", null, "holds no shape", "List at least one shape.");
            // A fixed start falls away for early plants, so a group needs a shape that always fits.
            else if (shapes.Count > 0 && shapes.TrueForAll(shape => shape.DaysBeforeUsual is null))
                group.Fault("shapes", null, "holds only shapes with a fixed start", "Give at least one shape daysBeforeUsual.");
            return new ShapeGroup(key, shapes);
        }

        IReadOnlySet<string> Genera(string key)
        {
            var names = map.Texts(key);
            if (names.Count == 0)
                map.Fault(key, null, "names no genus", "List botanical genera, such as [Prunus, Malus].");
            return names.ToHashSet(StringComparer.Ordinal);
        }
    }

    private static IndexShape Shape(YamlMap map) => new(
        map.Whole("baseC", 0, SeasonDrivers.HighestBaseC), map.Number("dayLengthPower", 0, 8),
        map.OptionalWhole("daysBeforeUsual", 10, 200), map.Number("chillRate", 0, 0.1));
}
