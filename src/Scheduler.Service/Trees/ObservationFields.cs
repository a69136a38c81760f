using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Reads an observation of a tree out of a request body. Past years are welcome: they teach the growth clock.</summary>
internal static class ObservationFields
{
    private static readonly string[] Soils = ["dry", "moist", "wet"];
    private static readonly string[] Strengths = ["strong", "medium", "weak"];
    private static readonly string[] Candles = ["C1", "C2", "C3", "C4"];
    private static readonly string[] Bareness = ["no", "partly", "yes"];
    private static readonly string[] PhaseIds = [.. GrowthPhase.All.Select(phase => phase.Id)];

    public static Observation Read(FieldReader fields, LocalDate today)
    {
        var phase = fields.Optional("phase", null, Phase);
        var seen = new Observation
        {
            Id = NewId.Next(),
            Date = fields.Required("date", null, value => value.Date(TreeFields.Earliest, today)),
            Phase = phase,
            Bbch = fields.Optional("bbch", null, value => value.Whole(0, 99)) ?? (phase is null ? null : GrowthPhase.Find(phase)!.Bbch),
            CrownZone = fields.Optional("crownZone", null, value => value.Choice<CrownZone>()),
            Branch = fields.Optional("branch", null, value => value.Text(50)),
            Flush = fields.Optional("flush", null, value => value.Whole(1, 2)),
            LeafCount = fields.Optional("leafCount", null, value => value.Whole(0, 1000)),
            Density = fields.Optional("density", null, value => value.Whole(0, 3)),
            Hardened = fields.Optional("hardened", null, value => value.Flag()),
            WireTight = fields.Optional("wireTight", null, value => value.Flag()),
            Soil = fields.Optional("soil", null, value => value.OneOf(Soils)),
            Strength = fields.Optional("strength", null, value => value.OneOf(Strengths)),
            Organ = fields.Optional("organ", null, value => value.Text(50)),
            Candle = fields.Optional("candle", null, value => value.OneOf(Candles)),
            Soft = fields.Optional("soft", null, value => value.Flag()),
            BaseFirm = fields.Optional("baseFirm", null, value => value.Flag()),
            Firm = fields.Optional("firm", null, value => value.Flag()),
            ShootCm = fields.Optional("shootCm", null, value => value.Number(0, 1000, "cm")),
            InternodeCm = fields.Optional("internodeCm", null, value => value.Number(0, 100, "cm")),
            PastOutlineCm = fields.Optional("pastOutlineCm", null, value => value.Number(0, 1000, "cm")),
            LeavesFullSize = fields.Optional("leavesFullSize", null, value => value.Flag()),
            TipsMoving = fields.Optional("tipsMoving", null, value => value.Flag()),
            Growing = fields.Optional("growing", null, value => value.Flag()),
            SpringGrowthFirm = fields.Optional("springGrowthFirm", null, value => value.Flag()),
            ShareOfShootsPercent = fields.Optional("shareOfShootsPercent", null, value => value.Number(0, 100, "%")),
            SomeAtBbch = fields.Optional("someAtBbch", null, value => value.Whole(0, 99)),
            FlowerBuds = fields.Optional("flowerBuds", null, value => value.Text(50)),
            FlowerBudsSeen = fields.Optional("flowerBudsSeen", null, value => value.Flag()),
            FlowersPastPercent = fields.Optional("flowersPastPercent", null, value => value.Number(0, 100, "%")),
            FruitSet = fields.Optional("fruitSet", null, value => value.Flag()),
            BareAlongLength = fields.Optional("bareAlongLength", null, value => value.OneOf(Bareness)),
            LiveUnderScratch = fields.Optional("liveUnderScratch", null, value => value.Flag()),
            CapsOff = fields.Optional("capsOff", null, value => value.Flag()),
            CandlesPerPoint = fields.Optional("candlesPerPoint", null, value => value.Whole(0, 50)),
            ShootsPerPoint = fields.Optional("shootsPerPoint", null, value => value.Whole(0, 50)),
            DeadTwigs = fields.Optional("deadTwigs", null, value => value.Flag()),
            WireBiting = fields.Optional("wireBiting", null, value => value.Flag()),
            PestSigns = fields.Optional("pestSigns", null, value => value.Flag()),
            FrostedLeaves = fields.Optional("frostedLeaves", null, value => value.Flag()),
            WaterStands = fields.Optional("waterStands", null, value => value.Flag()),
            RootsLift = fields.Optional("rootsLift", null, value => value.Flag()),
            Notes = fields.Optional("notes", null, value => value.Text(10_000, lines: true))
        };
        CheckTogether(fields, seen);
        return seen;
    }

    private static void CheckTogether(FieldReader fields, Observation seen)
    {
        if (fields.Faults.Any)
            return;
        if (seen.Phase is { } phase && GrowthPhase.Find(phase)!.Bbch != seen.Bbch)
            fields.Fault("bbch", $"is {seen.Bbch}, but the phase {phase} is {GrowthPhase.Find(phase)!.Bbch}: give one of the two.", new FaultKind("phase-or-bbch"));
        if (seen == new Observation { Id = seen.Id, Date = seen.Date, CrownZone = seen.CrownZone, Branch = seen.Branch, Flush = seen.Flush })
            fields.Fault("phase", "is missing like all the rest: report at least one thing seen, such as phase or bbch.", new FaultKind("nothing-said"));
    }

    private static string? Phase(FieldValue value) => value.Known(PhaseIds.Contains, typed => NearestIds.Of(typed, PhaseIds));
}
