using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog;

public class PlanningReaderTests
{
    [Fact]
    public void ShippedOrder_PutsLeafWorkAfterShootsAndWireOffBeforeWireOn()
    {
        var rules = ShippedCatalog.Content.Craft.Planning;

        int StepOf(string technique, string? mode = null) => rules.StepOf(new(Guid.Empty, technique, mode, 2026, 1));

        Assert.True(StepOf("scouting") < StepOf("tip-pinch"));
        Assert.True(StepOf("tip-pinch") < StepOf("leaf-thinning"));
        Assert.True(StepOf("wiring", "remove") < StepOf("structural-pruning", "live-wood"));
        Assert.True(StepOf("leaf-thinning") < StepOf("wiring", "apply"));
        Assert.True(StepOf("structural-pruning", "dead-wood") < StepOf("structural-pruning", "live-wood"));
    }

    [Fact]
    public void TechniqueWithoutAPlaceInTheDay_IsAFault()
    {
        using var copy = new CatalogCopy();
        var line = copy.Change(PlanningReader.File, "work: [repotting]", "work: [repoting]");

        var faults = copy.Faults();

        Assert.Contains(faults, fault => fault.File == PlanningReader.File && fault.Value == "repoting" && fault.Line == line && fault.Remedy.Contains("repotting", StringComparison.Ordinal));
        Assert.Contains(faults, fault => fault.File == PlanningReader.File && fault.Value == "repotting");
    }

    [Theory]
    [InlineData("movingPercent: { value: 15", "movingPercent: { value: 150", "movingPercent")]
    [InlineData("horizonDays: { value: 56", "horizonDays: { value: 0", "horizonDays")]
    [InlineData("horizonDays: { value: 56", "horizonDays: { value: 367", "horizonDays")]
    [InlineData("worthNone: { value: 2", "worthNone: { value: 0", "worthNone")]
    [InlineData("leafSteps: [shoots, leaves]", "leafSteps: [shoots, leafs]", "leafSteps")]
    public void WrongFigureOrStep_IsAFault(string right, string wrong, string key)
    {
        using var copy = new CatalogCopy();
        copy.Change(PlanningReader.File, right, wrong);

        var fault = Assert.Single(copy.Faults());

        Assert.Contains(key, fault.Key, StringComparison.Ordinal);
    }
}
