using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>An invented garden: 40 trees of 20 species in mixed stages, with mixed goals, sizes and health.</summary>
internal static class DiaryGarden
{
    private const int RootWorkDay = 75;

    private static readonly (string Name, string Species, TreeStage Stage, Goal[] Goals, TreeSize Size, Health Health)[] Rows =
    [
        ("Maple 1", "acer-palmatum", TreeStage.Refinement, [Goal.Slender], TreeSize.M, Health.Vigorous),
        ("Maple 2", "acer-palmatum", TreeStage.BranchBuilding, [Goal.ThickenBranch], TreeSize.L, Health.Sound),
        ("Trident 1", "acer-buergerianum", TreeStage.Refinement, [Goal.Light], TreeSize.M, Health.Vigorous),
        ("Trident 2", "acer-buergerianum", TreeStage.Ramification, [Goal.BackBud], TreeSize.S, Health.Vigorous),
        ("Elm 1", "ulmus-parvifolia", TreeStage.Refinement, [Goal.Slender, Goal.Light], TreeSize.M, Health.Sound),
        ("Elm 2", "ulmus-parvifolia", TreeStage.TrunkBuilding, [Goal.ThickenTrunk], TreeSize.L, Health.Vigorous),
        ("Beech 1", "fagus-sylvatica", TreeStage.Refinement, [Goal.Slender], TreeSize.M, Health.Vigorous),
        ("Beech 2", "fagus-sylvatica", TreeStage.Ramification, [Goal.Light], TreeSize.L, Health.Weak),
        ("Oak 1", "quercus-robur", TreeStage.Ramification, [Goal.Slender], TreeSize.L, Health.Sound),
        ("Oak 2", "quercus-robur", TreeStage.BranchBuilding, [Goal.ThickenBranch], TreeSize.M, Health.Vigorous),
        ("Spindle 1", "euonymus", TreeStage.Ramification, [Goal.Slender], TreeSize.S, Health.Vigorous),
        ("Spindle 2", "euonymus", TreeStage.BranchBuilding, [Goal.BackBud], TreeSize.M, Health.Sound),
        ("Apricot 1", "prunus-mume", TreeStage.Refinement, [Goal.Flowers], TreeSize.M, Health.Sound),
        ("Apricot 2", "prunus-mume", TreeStage.Ramification, [Goal.Slender], TreeSize.S, Health.Vigorous),
        ("Apple 1", "malus", TreeStage.Refinement, [Goal.Flowers], TreeSize.M, Health.Vigorous),
        ("Apple 2", "malus", TreeStage.BranchBuilding, [Goal.ChangeLeader], TreeSize.L, Health.Sound),
        ("Pomegranate 1", "punica-granatum", TreeStage.Ramification, [Goal.Flowers], TreeSize.M, Health.Sound),
        ("Pomegranate 2", "punica-granatum", TreeStage.Refinement, [Goal.Slender], TreeSize.S, Health.Vigorous),
        ("Azalea 1", "rhododendron-indicum", TreeStage.Refinement, [Goal.Flowers], TreeSize.M, Health.Sound),
        ("Azalea 2", "rhododendron-indicum", TreeStage.Ramification, [Goal.BackBud], TreeSize.S, Health.Vigorous),
        ("Box 1", "buxus", TreeStage.Refinement, [Goal.Light], TreeSize.S, Health.Sound),
        ("Box 2", "buxus", TreeStage.Ramification, [Goal.Slender], TreeSize.M, Health.Vigorous),
        ("Olive 1", "olea-europaea", TreeStage.Ramification, [Goal.BackBud], TreeSize.M, Health.Vigorous),
        ("Olive 2", "olea-europaea", TreeStage.TrunkBuilding, [Goal.ThickenTrunk], TreeSize.L, Health.Sound),
        ("Fig 1", "ficus", TreeStage.Refinement, [Goal.Slender], TreeSize.M, Health.Vigorous),
        ("Fig 2", "ficus", TreeStage.Ramification, [Goal.Light], TreeSize.S, Health.Sound),
        ("Black pine 1", "pinus-thunbergii", TreeStage.Refinement, [Goal.Slender], TreeSize.M, Health.Vigorous),
        ("Black pine 2", "pinus-thunbergii", TreeStage.BranchBuilding, [Goal.ThickenBranch], TreeSize.L, Health.Vigorous),
        ("Scots pine 1", "pinus-sylvestris", TreeStage.Refinement, [Goal.Slender], TreeSize.M, Health.Sound),
        ("Scots pine 2", "pinus-sylvestris", TreeStage.Ramification, [Goal.BackBud], TreeSize.L, Health.Vigorous),
        ("Juniper 1", "juniperus-chinensis", TreeStage.Refinement, [Goal.Light], TreeSize.M, Health.Vigorous),
        ("Juniper 2", "juniperus-chinensis", TreeStage.TrunkBuilding, [Goal.ThickenTrunk], TreeSize.S, Health.Failing),
        ("Spruce 1", "picea", TreeStage.Ramification, [Goal.Slender], TreeSize.M, Health.Sound),
        ("Spruce 2", "picea", TreeStage.Refinement, [Goal.Light], TreeSize.L, Health.Vigorous),
        ("Cypress 1", "chamaecyparis-obtusa", TreeStage.Refinement, [Goal.Light], TreeSize.M, Health.Vigorous),
        ("Cypress 2", "chamaecyparis-obtusa", TreeStage.Ramification, [Goal.Recover], TreeSize.S, Health.Sound),
        ("Yew 1", "taxus", TreeStage.Ramification, [Goal.BackBud], TreeSize.M, Health.Vigorous),
        ("Yew 2", "taxus", TreeStage.BranchBuilding, [Goal.ChangeLeader], TreeSize.L, Health.Sound),
        ("Larch 1", "larix", TreeStage.Refinement, [Goal.Slender], TreeSize.M, Health.Vigorous),
        ("Larch 2", "larix", TreeStage.TrunkBuilding, [Goal.ThickenTrunk], TreeSize.Xl, Health.Vigorous)
    ];

    /// <summary>Care, not hand work.</summary>
    public static bool IsCare(string technique) =>
        technique is "feeding" or "frost-protection" or "heat-shade" or "scouting" or "watering" or "winter-storage";

    /// <summary>Looking whether wire bites takes no time off the work.</summary>
    public static bool IsLook(string technique, string? mode) => technique == "wiring" && mode == "check";

    /// <summary>Something is to be done by hand today, more than a look.</summary>
    public static bool IsHandWork(TechniqueAdvice one) => one.Verdict == Verdict.DoNow && !IsCare(one.Technique)
        && (one.Technique != "wiring" || one.Parts.Any(part => part.Verdict == Verdict.DoNow && !IsLook(one.Technique, part.Mode)));

    public static IReadOnlyList<Tree> Trees(GrowthYear year) => [.. Rows.Select((row, index) => new Tree
    {
        Id = new Guid(index + 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0),
        Name = row.Name,
        SpeciesId = row.Species,
        Stage = row.Stage,
        Goals = row.Goals,
        Size = row.Size,
        Health = row.Health,
        RootWorkKnown = true,
        // Root work lies one to five springs back.
        RepottedOn = year.HeatStart.PlusYears(-1 - index % 5).PlusDays(RootWorkDay),
        Placement = row.Name == "Fig 2" ? Placement.Indoors : Placement.Open,
        Requests = row.Name switch
        {
            "Trident 1" => [new TechniqueRequest("full-defoliation")],
            "Oak 1" or "Spruce 1" => [new TechniqueRequest("wiring")],
            _ => []
        },
        Origin = row.Name == "Olive 2" ? new Origin(OriginKind.Imported, year.HeatStart.PlusDays(-120)) : null,
        Branches = row.Name switch
        {
            "Elm 1" => [new Branch { Id = "low left", CrownZone = CrownZone.Lower, Stage = TreeStage.BranchBuilding, Goals = [Goal.ThickenBranch], Girth = Girth.TooThin }],
            "Maple 2" => [new Branch { Id = "new top", CrownZone = CrownZone.Top, Stage = TreeStage.Ramification, Goals = [Goal.Slender], Role = BranchRole.Leader }],
            _ => []
        }
    })];
}
