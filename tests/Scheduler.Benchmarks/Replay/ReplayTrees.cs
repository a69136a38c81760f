using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Benchmarks.Replay;

/// <summary>The twenty invented trees of a replayed season, of as many species of the catalog.</summary>
internal static class ReplayTrees
{
    private const int RootWorkDay = 105;

    private static readonly (string Species, TreeStage Stage, Goal Goal, TreeSize Size, Health Health)[] Rows =
    [
        ("acer-palmatum", TreeStage.Refinement, Goal.Slender, TreeSize.M, Health.Vigorous),
        ("acer-buergerianum", TreeStage.Ramification, Goal.BackBud, TreeSize.S, Health.Vigorous),
        ("acer-campestre", TreeStage.BranchBuilding, Goal.ThickenBranch, TreeSize.L, Health.Sound),
        ("betula-pendula", TreeStage.Ramification, Goal.Slender, TreeSize.M, Health.Sound),
        ("carpinus-betulus", TreeStage.Refinement, Goal.Light, TreeSize.M, Health.Vigorous),
        ("cornus-mas", TreeStage.Ramification, Goal.Flowers, TreeSize.M, Health.Sound),
        ("crataegus-monogyna", TreeStage.Refinement, Goal.Slender, TreeSize.L, Health.Vigorous),
        ("fagus-sylvatica", TreeStage.Refinement, Goal.Slender, TreeSize.M, Health.Vigorous),
        ("ginkgo-biloba", TreeStage.TrunkBuilding, Goal.ThickenTrunk, TreeSize.L, Health.Sound),
        ("juniperus-chinensis", TreeStage.Refinement, Goal.Light, TreeSize.M, Health.Vigorous),
        ("larix", TreeStage.Refinement, Goal.Slender, TreeSize.M, Health.Vigorous),
        ("malus", TreeStage.Refinement, Goal.Flowers, TreeSize.M, Health.Vigorous),
        ("picea", TreeStage.Ramification, Goal.Slender, TreeSize.M, Health.Sound),
        ("pinus-sylvestris", TreeStage.Refinement, Goal.BackBud, TreeSize.M, Health.Vigorous),
        ("pinus-thunbergii", TreeStage.Refinement, Goal.Slender, TreeSize.M, Health.Vigorous),
        ("quercus-robur", TreeStage.Ramification, Goal.Slender, TreeSize.L, Health.Sound),
        ("rhododendron-indicum", TreeStage.Refinement, Goal.Flowers, TreeSize.M, Health.Sound),
        ("tilia-cordata", TreeStage.BranchBuilding, Goal.ThickenBranch, TreeSize.M, Health.Vigorous),
        ("ulmus-parvifolia", TreeStage.Refinement, Goal.Slender, TreeSize.S, Health.Vigorous),
        ("zelkova-serrata", TreeStage.Refinement, Goal.Light, TreeSize.M, Health.Sound)
    ];

    public static IReadOnlyList<Tree> Of(int year) => [.. Rows.Select((row, index) => new Tree
    {
        Id = new Guid(index + 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1),
        Name = $"Tree {index + 1}",
        SpeciesId = row.Species,
        Stage = row.Stage,
        Goals = [row.Goal],
        Size = row.Size,
        Health = row.Health,
        RootWorkKnown = true,
        RepottedOn = new LocalDate(year - 1 - index % 4, 1, 1).PlusDays(RootWorkDay)
    })];
}
