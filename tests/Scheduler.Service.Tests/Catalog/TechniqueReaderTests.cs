using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Catalog;

public class TechniqueReaderTests
{
    private static Craft Craft => ShippedCatalog.Content.Craft;

    [Fact]
    public void Techniques_OfThisVersion_AreThere()
    {
        string[] ids =
        [
            "bud-thinning", "candle-pinch", "conifer-tips", "cut-back", "decandling", "early-clip", "feeding", "flower-fruit-removal",
            "flower-side-tips", "frost-protection", "full-defoliation", "heat-shade", "leader-change", "leaf-thinning", "needle-plucking",
            "outer-leaf-removal", "outline-trim", "partial-defoliation", "pre-push-defoliation", "repotting", "scouting",
            "structural-pruning", "tip-pinch", "watering", "winter-storage", "wiring"
        ];
        Assert.Equal(ids, Craft.Techniques.Select(technique => technique.Id).Order(StringComparer.Ordinal));
        Assert.Equal(26, ShippedCatalog.Content.TechniqueIds.Count);
    }

    [Fact]
    public void TipPinch_ReadsItsTablesAndWindows()
    {
        var pinch = Craft.Find("tip-pinch")!;
        Assert.Equal("pinching-thins", pinch.Stages[TreeStage.BranchBuilding].BarReason);
        Assert.Equal(GoalWish.Wanted, pinch.Goals[Goal.Slender].Wish);
        Assert.Equal((RootWorkEffect.Limit, RootWorkEffect.Bar), (pinch.RootWork.Light, pinch.RootWork.Normal));
        var mode = Assert.Single(pinch.Modes);
        Assert.Contains(mode.Holds, rule => rule.Hold == "frost-soon" && rule.For == AppliesTo.Every);
        Assert.Equal(10, mode.Windows.First(window => window.For.Attributes.Contains("opposite")).Opens.Fields["bbch"]);
        Assert.All(mode.Effort.Minutes, size => Assert.InRange(size.Value, 1, 500));
    }

    [Fact]
    public void Ids_OfOtherFiles_AreChecked()
    {
        using var copy = new CatalogCopy();
        const string pinch = "techniques/tip-pinch.yaml";
        var expected = new (string, int, string, string?)[]
        {
            (pinch, copy.Change(pinch, "  DSF: strong-shoots-only", "  DSF: strong-shoots-onyl"), "groups.DSF", "strong-shoots-onyl"),
            (pinch, copy.Change(pinch, "  thicken-branch: \"no: pinching-thins\"", "  thicken-branch: \"no: pinching-thinns\""), "goals.thicken-branch", "pinching-thinns"),
            (pinch, copy.Change(pinch, "[frost-soon, extreme-heat, ", "[frost-son, extreme-heat, "), "modes[0].holds", "frost-son"),
            (pinch, copy.Change(pinch, "        technique: leaf-thinning", "        technique: leaf-thining"), "modes[0].followUps[2].technique", "leaf-thining"),
            (pinch, copy.Change(pinch, "situations: [base-soft]", "situations: [base-sft]"), "modes[0].fallbacks[2].for.situations", "base-sft"),
            (pinch, copy.Change(pinch, "        closes: { leafCount: 5 }", "        closes: { leavesCount: 5 }"), "modes[0].windows[0].closes", null)
        };
        Assert.Equal(expected.Order(), copy.Faults().Select(fault => (fault.File, fault.Line, fault.Key, fault.Value)).Order());
    }

    [Fact]
    public void FollowUps_OfAKindOrAnAnswerThatIsNone_AreFaults()
    {
        using var copy = new CatalogCopy();
        const string clip = "techniques/early-clip.yaml", needles = "techniques/needle-plucking.yaml";
        var expected = new (string, int, string, string?)[]
        {
            (clip, copy.Change(clip, "        answeredBy: [density]", "        answeredBy: [densty]"), "modes[0].followUps[1].answeredBy", "densty"),
            (needles, copy.Change(needles, "        kind: rest", "        kind: nap"), "modes[0].followUps[2].kind", "nap")
        };
        Assert.Equal(expected.Order(), copy.Faults().Select(fault => (fault.File, fault.Line, fault.Key, fault.Value)).Order());
    }

    [Fact]
    public void Flags_OfATechnique_AreData()
    {
        Assert.Equal(["feeding", "frost-protection", "heat-shade", "repotting", "scouting", "watering", "winter-storage"],
            Craft.Techniques.Where(technique => technique.IsWholeTree).Select(technique => technique.Id).Order(StringComparer.Ordinal));
        Assert.True(Craft.Find("decandling") is { IsGreenWork: true, ForcesGrowth: false });
        Assert.True(Craft.Find("cut-back") is { IsGreenWork: true, ForcesGrowth: true, IsWholeTree: false });
        using var copy = new CatalogCopy();
        copy.Change("techniques/cut-back.yaml", "greenWork: true", "greenWork: maybe");
        Assert.Equal("greenWork", Assert.Single(copy.Faults()).Key);
    }

    [Fact]
    public void Table_WithAGroupLeftOut_IsAFault()
    {
        using var copy = new CatalogCopy();
        copy.Change("techniques/tip-pinch.yaml", "  DCN: \"no: other-technique-does-this\"\n", "");
        Assert.Equal("groups.DCN", Assert.Single(copy.Faults()).Key);
    }

    [Fact]
    public void SharedFile_ThatIsBroken_IsToldOnceAndNotForEveryUse()
    {
        using var copy = new CatalogCopy();
        copy.Write("groups.yaml", "MPJ: [\n");
        Assert.All(copy.Faults(), fault => Assert.Equal("groups.yaml", fault.File));
    }

    // A few of the shared thresholds: common practice, no source; the frost figure after Penn State Extension, Orchard Frost.
    [Fact]
    public void Thresholds_AreAllRead()
    {
        var thresholds = Craft.Thresholds;
        Assert.All(typeof(Thresholds).GetProperties(), property => Assert.NotNull(property.GetValue(thresholds)));
        Assert.Equal((3.0, 30.0, 50.0), (thresholds.FrostSoonNights.Value, thresholds.HeatOnShadeSensitiveC.Value, thresholds.WindKmh.Value));
        Assert.Contains("Penn State", thresholds.ActBloomC.Source, StringComparison.Ordinal);
    }

    [Fact]
    public void Reasons_AreSentences()
    {
        Assert.All(Craft.Reasons.Concat(Craft.Holds).Concat(Craft.Modes), entry => Assert.EndsWith(".", entry.Value, StringComparison.Ordinal));
        Assert.Equal(18, Craft.Groups.Count);
        Assert.Contains("frost-soon", Craft.Holds.Keys);
    }
}
