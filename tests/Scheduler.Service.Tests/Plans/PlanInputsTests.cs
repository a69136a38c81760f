using Scheduler.Domain.Trees;
using Scheduler.Service.Plans;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Plans;

public class PlanInputsTests
{
    [Fact]
    public void AccountChoices_ReachEveryTreeThatHasNoneOfItsOwn()
    {
        var plain = Rules.Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var own = plain with { Settings = new Dictionary<string, string> { ["outline"] = "trimmed" } };
        var none = Enumerable.Empty<(Guid Tree, string Text)>();
        var inputs = new PlanInputs(
            new GardenSite(), [plain, own], none.ToLookup(one => one.Tree, _ => (WorkRecord)null!), none.ToLookup(one => one.Tree, _ => (Observation)null!), [])
        {
            AccountSettings = new Dictionary<string, string> { ["2"] = "free", ["3"] = "true" }
        };

        var trees = inputs.Under(ShippedCatalog.Content.Craft.Settings).Trees;

        var points = ShippedCatalog.Content.Craft.Settings;
        Assert.Equal(["free", "trimmed"], trees.Select(tree => points.Of("outline", tree.Settings)));
        Assert.Equal(["yes", "yes"], trees.Select(tree => points.Of("3", tree.Settings)));
    }
}
