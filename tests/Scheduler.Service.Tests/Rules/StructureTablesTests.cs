using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// The columns of the decision tables for leader change and structure cuts, typed once more by hand from the domain brief
/// (common practice); root work, wire and flowers stand outside those tables.
/// </summary>
public class StructureTablesTests
{
    private static readonly Dictionary<string, (string Leader, string Pruning)> Groups = new()
    {
        ["MPJ"] = ("yes", "sap-safe-season"), ["DMF"] = ("yes", "sap-safe-season"), ["DSF"] = ("yes", "sap-safe-season"), ["FSH"] = ("yes", "yes"),
        ["FOB"] = ("yes", "cuts-in-bloom-season"), ["FOL"] = ("yes", "cuts-in-bloom-season"), ["FNW"] = ("yes", "yes"),
        ["AZA"] = ("live-shoot-becomes-leader", "cuts-in-bloom-season"), ["EBT"] = ("yes", "green-left-on-branch"), ["EBW"] = ("yes", "green-left-on-branch"),
        ["PN2"] = ("live-shoot-becomes-leader", "green-left-on-branch"), ["PN1"] = ("live-shoot-becomes-leader", "green-left-on-branch"),
        ["JNS"] = ("live-shoot-becomes-leader", "green-left-on-branch"), ["JNN"] = ("live-shoot-becomes-leader", "green-left-on-branch"),
        ["CYP"] = ("live-shoot-becomes-leader", "green-left-on-branch"), ["SPF"] = ("live-shoot-becomes-leader", "green-left-on-branch"),
        ["YEW"] = ("yes", "yes"), ["DCN"] = ("yes", "yes")
    };

    private static readonly TechniqueMode LiveWood = Trees.Craft.Find("structural-pruning")!.Modes.Single(mode => mode.Id == "live-wood");
    private static readonly Technique Leader = Trees.Craft.Find("leader-change")!;

    [Fact]
    public void GroupCells_AreThoseOfTheBrief()
    {
        Assert.Equal(18, Groups.Count);
        foreach (var (group, (leader, pruning)) in Groups)
        {
            AssertCell(leader, Leader.Groups[group], group);
            AssertCell(pruning, LiveWood.Groups[group], group);
        }
    }

    [Fact]
    public void StageCells_AreThoseOfTheBrief()
    {
        foreach (var stage in Enum.GetValues<TreeStage>())
        {
            AssertCell(stage >= TreeStage.Ramification ? "apex-lost-or-live-shoot-named" : "yes", Leader.Stages[stage], stage.ToString());
            AssertCell(stage == TreeStage.Refinement ? "top-share-of-a-refined-tree" : "yes", LiveWood.Stages[stage], stage.ToString());
        }
    }

    [Fact]
    public void GoalCells_AreThoseOfTheBrief()
    {
        foreach (var goal in Enum.GetValues<Goal>())
        {
            var leader = goal switch
            {
                Goal.Recover => GoalCell.Parse("no: weak-or-recovering"),
                Goal.ThickenTrunk or Goal.ChangeLeader => GoalCell.Wanted,
                _ => GoalCell.Neutral
            };
            Assert.Equal(leader, Leader.Goals[goal]);
            Assert.Equal(goal == Goal.Recover ? GoalCell.Parse("no: weak-or-recovering") : GoalCell.Wanted, LiveWood.Goals[goal]);
        }
    }

    [Theory]
    [InlineData("structural-pruning", "dead-wood")]
    [InlineData("wiring", "check")]
    [InlineData("wiring", "remove")]
    [InlineData("flower-fruit-removal", "flowers")]
    [InlineData("flower-fruit-removal", "fruit")]
    public void Relief_HasNeitherStageNorGoalInItsWay(string technique, string mode)
    {
        var found = Trees.Craft.Find(technique)!.Modes.Single(one => one.Id == mode);
        Assert.True(found.Relieves);
        Assert.Empty(found.Stages.Keys);
        Assert.Empty(found.Goals.Keys);
    }

    private static void AssertCell(string expected, Cell cell, string row) => Assert.True(
        expected == "yes" ? cell is { BarReason: null, Conditions.Count: 0 } : cell.BarReason is null && cell.Conditions.SequenceEqual([expected]),
        $"{row}: {expected}");
}
