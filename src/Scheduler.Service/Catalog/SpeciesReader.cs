using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Catalog;

/// <summary>Reads one file of <c>species/</c>.</summary>
internal sealed class SpeciesReader(CraftTerms terms)
{
    public static readonly IReadOnlyList<string> Attributes =
        ["opposite", "alternate", "spiral", "scale", "bleeder", "prunus", "basally-dominant", "shade-sensitive", "succulent"];

    public static readonly IReadOnlyList<string> LeafTypes =
    [
        "deciduous", "semi-evergreen-to-deciduous", "semi-evergreen", "evergreen-broadleaf", "deciduous-gymnosperm",
        "deciduous-conifer", "evergreen-conifer", "tropical-evergreen", "tropical-succulent", "subtropical-evergreen"
    ];

    private static readonly string[] DayLengthEffects = ["none", "weak", "moderate", "strong"];
    private static readonly string[] Effects = ["off", "rarely", "differently"];

    private static readonly IReadOnlyList<string> Zones = [.. HardinessZone.All.Select(zone => zone.ToString())];

    public Species Read(YamlMap map)
    {
        var cautions = map.OptionalMap("cautions");
        var (cautionsProvenance, cautionsSource) = cautions?.Origin() ?? (Provenance.CommonPractice, null);
        var species = new Species
        {
            Id = map.Text("id"),
            BotanicalName = map.Text("botanicalName"),
            CommonName = map.Text("commonName"),
            Family = map.Text("family"),
            Group = map.Choice("group", terms.Groups),
            Attributes = map.Choices("attributes", Attributes).ToHashSet(),
            Habit = map.Text("habit"),
            LeafType = map.Choice("leafType", LeafTypes),
            Leaves = map.Text("leaves"),
            FlowerBudsOpen = map.OptionalText("flowerBudsOpen"),
            ThermalTimes = ThermalTimes(map.Map("thermalTimes")),
            Hardiness = Hardiness(map.Map("hardiness")),
            Cautions = cautions?.Texts("texts") ?? [],
            CautionsProvenance = cautionsProvenance,
            CautionsSource = cautionsSource,
            Remarks = [.. map.Maps("remarks").Select(Remark)],
            WaterFactor = map.OptionalFigure("waterFactor", 0, 3),
            Notes = map.Findings("notes")
        };
        map.RefuseUnknownKeys();
        return species;
    }

    private static ThermalTimes ThermalTimes(YamlMap map)
    {
        var dayLength = map.Map("dayLengthEffect");
        var times = new ThermalTimes
        {
            BaseC = map.Figure("baseC", -5, 20),
            BudSwellCd = Heat("budSwellCd"),
            BudBreakCd = Heat("budBreakCd"),
            FirstLeafCd = Heat("firstLeafCd"),
            FirstBloomCd = Heat("firstBloomCd"),
            BloomFollowsDayLength = map.Flag("bloomFollowsDayLength"),
            ExtensionEndCd = map.FigureOrNone("extensionEndCd", 1, 5000),
            NeedlesOutCd = Heat("needlesOutCd"),
            PhyllochronCd = map.OptionalFigure("phyllochronCd", 1, 500),
            PreformedLeaves = map.OptionalFigure("preformedLeaves", 1, 40),
            AutumnShiftDays = map.OptionalFigure("autumnShiftDays", -45, 45),
            ChillPortions = map.Figure("chillPortions", 0, 200),
            DayLengthEffect = dayLength.Choice("value", DayLengthEffects),
            DayLengthProvenance = dayLength.Origin().Provenance
        };
        InOrder(map, ("budSwellCd", times.BudSwellCd), ("budBreakCd", times.BudBreakCd), ("firstLeafCd", times.FirstLeafCd), ("extensionEndCd", times.ExtensionEndCd));
        InOrder(map, ("budBreakCd", times.BudBreakCd), ("needlesOutCd", times.NeedlesOutCd), ("extensionEndCd", times.ExtensionEndCd));
        return times;

        Figure? Heat(string key) => map.OptionalFigure(key, 1, 5000);
    }

    private static Hardiness Hardiness(YamlMap map)
    {
        var zones = map.Map("zones");
        var (coldest, warmest) = (zones.Choice("coldest", Zones), zones.Choice("warmest", Zones));
        if (HardinessZone.TryParse(coldest, out var cold) && HardinessZone.TryParse(warmest, out var warm) && cold > warm)
            zones.Fault("warmest", warmest, "is colder than the coldest zone", "Write the colder zone under coldest.");
        var hardiness = new Hardiness
        {
            ColdestZone = coldest,
            WarmestZone = warmest,
            ZonesProvenance = zones.Origin().Provenance,
            AirLowC = Temperature("airLowC"),
            RootKillC = Temperature("rootKillC"),
            YoungRootKillC = map.OptionalFigure("youngRootKillC", -60, 30),
            NewLeafDamageC = Temperature("newLeafDamageC"),
            KeepAboveC = map.OptionalFigure("keepAboveC", -20, 30),
            BestC = map.OptionalFigure("bestC", 0, 45)
        };
        if (hardiness.YoungRootKillC?.Value < hardiness.RootKillC.Value)
            map.Fault("youngRootKillC", null, "lies below rootKillC", "Young roots die before mature ones.");
        return hardiness;

        Figure Temperature(string key) => map.Figure(key, -60, 30);
    }

    private TechniqueRemark Remark(YamlMap map) =>
        new(map.Choice("technique", terms.Techniques), map.Choice("effect", Effects), map.Text("text"), map.Origin().Provenance);

    private static void InOrder(YamlMap map, params ReadOnlySpan<(string Key, Figure? Figure)> steps)
    {
        var (before, least) = ("", 0.0);
        foreach (var (key, figure) in steps)
        {
            if (figure is null)
                continue;
            if (figure.Value < least)
                map.Fault(key, null, $"lies below {before}", $"Growth reaches {key} after {before}.");
            (before, least) = (key, figure.Value);
        }
    }
}
