using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// Every cell of the three decision tables, typed once more by hand from the domain brief (common practice), in its own
/// short codes: Y passes, -X and the like bar with the reason below, cN a condition, + wanted, 0 neutral.
/// </summary>
public class DecisionTablesTests
{
    private static readonly string[] Techniques =
        ["tip-pinch", "cut-back", "early-clip", "flower-side-tips", "leaf-thinning", "pre-push-defoliation", "decandling", "outline-trim"];

    private const string GroupTable = """
        MPJ  Y   Y   -X     -   Y   -  -  Y
        DMF  Y   Y   c3     -   Y   -  -  Y
        DSF  c4  c5  -X     -   Y   -  -  Y
        FSH  -X  Y   Y      -   Y   -  -  Y
        FOB  c8  c9  c8,c3  c10 c7  -  -  c12
        FOL  c8  c9  -X     Y   Y   -  -  c12
        FNW  c14 c14 c14    -L  c7  -  -  c14
        AZA  -X  c9  -X     Y   -E  -E -  c12
        EBT  Y   Y   -X     -   c16 Y  -  Y
        EBW  Y   Y   -X     -   Y   -X -  Y
        PN2  -X  -B  -      -   -   -  Y  c19
        PN1  -X  -B  -      -   -   -  -F c19
        JNS  -T  -B  -      -   -   -  -  c19
        JNN  -X  -B  -      -   -   -  -  c19
        CYP  -X  -B  -      -   -   -  -  c19
        SPF  -X  -F  -      -   -   -  -  c19
        YEW  -X  Y   -      -   -   -  -  Y
        DCN  -X  Y   -      -   -   -  -  Y
        """;

    private const string StageTable = """
        trunk-building   -THIN c21 -THIN -STAGE -FUEL c22 -FUEL -FUEL
        branch-building  -THIN Y   c24   -STAGE c25   Y   c26   -FUEL
        ramification     c27   Y   Y     Y      Y     Y   Y     Y
        refinement       Y     c30 Y     Y      Y     Y   Y     Y
        """;

    // Outline trim: +f bars the trims and frees growth; flowers are neutral until the flower buds' own conditions bar it.
    private const string GoalTable = """
        slender         +      +     +     0      +     0      +     +
        thicken-branch  -THIN  +     -THIN 0      -FUEL 0      -THIN fFUEL
        thicken-trunk   -THIN  0     -THIN -STAGE -FUEL 0      -THIN fFUEL
        back-bud        0      +     0     0      +     +      +     fFUEL
        flowers         -BLOOM +     0     +      0     -BLOOM 0     0
        light           0      +     0     0      +     0      0     +
        change-leader   -LEAD  r     r     0      0     0      -LEAD fLEAD
        recover         -WEAK  -WEAK -WEAK -WEAK  -WEAK -WEAK  -WEAK fWEAK
        """;

    private static readonly Dictionary<string, string> Reasons = new()
    {
        [""] = "not-for-this-group", ["X"] = "other-technique-does-this", ["F"] = "no-second-flush", ["B"] = "no-buds-on-bare-wood",
        ["T"] = "strength-in-tips", ["L"] = "would-cost-bloom", ["E"] = "evergreen-leaf-store", ["THIN"] = "pinching-thins",
        ["STAGE"] = "stage-too-early", ["FUEL"] = "leaves-are-fuel", ["BLOOM"] = "would-cost-bloom", ["LEAD"] = "leader-must-run",
        ["WEAK"] = "weak-or-recovering"
    };

    private static readonly Dictionary<string, string> Conditions = new()
    {
        ["c3"] = "cane-from-base", ["c4"] = "strong-shoots-only", ["c5"] = "not-cut-this-season", ["c7"] = "vigorous-and-dense",
        ["c8"] = "no-flower-bud-on-shoot", ["c9"] = "after-bloom", ["c10"] = "leaves-overtop-flower", ["c12"] = "trim-before-flower-buds",
        ["c14"] = "before-tip-flower-buds", ["c16"] = "not-box-or-holly", ["c19"] = "free-extension-only", ["c21"] = "low-branch-or-rival",
        ["c22"] = "goal-back-bud", ["c24"] = "cane-not-a-branch", ["c25"] = "strong-top-shades", ["c26"] = "girth-enough",
        ["c27"] = "part-dense", ["c30"] = "missed-shoots-only"
    };

    [Fact]
    public void GroupCells_AreThoseOfTheBrief()
    {
        var rows = Rows(GroupTable).ToList();
        Assert.Equal(18, rows.Count);
        foreach (var (group, technique, code) in rows.SelectMany(Cells))
            Assert.True(Matches(code, Tables(technique).Groups[group]), $"{group} {technique}: {code}, not {Tables(technique).Groups[group]}");
    }

    [Fact]
    public void StageCells_AreThoseOfTheBrief()
    {
        foreach (var (stage, technique, code) in Rows(StageTable).SelectMany(Cells))
        {
            Assert.True(Ids.TryParse<TreeStage>(stage, out var id));
            Assert.True(Matches(code, Tables(technique).Stages[id]), $"{stage} {technique}: {code}");
        }
    }

    [Fact]
    public void GoalCells_AreThoseOfTheBrief()
    {
        foreach (var (goal, technique, code) in Rows(GoalTable).SelectMany(Cells))
        {
            Assert.True(Ids.TryParse<Goal>(goal, out var id));
            var cell = Tables(technique).Goals[id];
            var expected = code[0] switch
            {
                '+' => GoalCell.Wanted,
                '0' => GoalCell.Neutral,
                'r' => new GoalCell(GoalWish.RivalsOnly, "leaves-are-fuel"),
                'f' => new GoalCell(GoalWish.FreeGrowth, Reasons[code[1..]]),
                _ => new GoalCell(GoalWish.Barred, Reasons[code[1..]])
            };
            Assert.True(expected == cell, $"{goal} {technique}: {code}, not {cell}");
        }
    }

    [Fact]
    public void RootWorkAndCare_HaveNoTables()
    {
        foreach (var technique in new[] { "repotting", "feeding", "frost-protection", "heat-shade", "watering", "winter-storage", "scouting" })
        {
            var found = Trees.Craft.Find(technique)!;
            Assert.Empty(found.Groups.Keys);
            Assert.Empty(found.Stages.Keys);
            Assert.Empty(found.Goals.Keys);
        }
    }

    private static (IReadOnlyDictionary<string, Cell> Groups, IReadOnlyDictionary<TreeStage, Cell> Stages, IReadOnlyDictionary<Goal, GoalCell> Goals) Tables(string technique)
    {
        var found = Trees.Craft.Find(technique)!;
        // Outline trim has its tables on the trims; free extension always passes.
        var mode = found.Modes[^1];
        return (found.Groups.Count > 0 ? found.Groups : mode.Groups, found.Stages.Count > 0 ? found.Stages : mode.Stages, found.Goals.Count > 0 ? found.Goals : mode.Goals);
    }

    private static bool Matches(string code, Cell cell) => code[0] switch
    {
        'Y' => cell.BarReason is null && cell.Conditions.Count == 0,
        '-' => cell.BarReason == Reasons[code[1..]],
        _ => cell.BarReason is null && cell.Conditions.SequenceEqual(code.Split(',').Select(one => Conditions[one]))
    };

    private static IEnumerable<string[]> Rows(string table) =>
        table.Split('\n').Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));

    private static IEnumerable<(string Row, string Technique, string Code)> Cells(string[] row)
    {
        Assert.Equal(Techniques.Length + 1, row.Length);
        return Techniques.Select((technique, column) => (row[0], technique, row[column + 1]));
    }
}
