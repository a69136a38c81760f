using System.Reflection;
using System.Text.Json;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Tests.Catalog;

public class ClockRulesReaderTests
{
    private static readonly ClockRules Read = ShippedCatalog.Content.ClockRules;

    // The code keeps the same starting values for whoever uses the clock without a catalog; the two must not drift apart.
    [Fact]
    public void Rules_EqualTheDefaultsInCodeAndNameEveryOne()
    {
        var defaults = new ClockRules { Trees = Read.Trees, Fruit = Read.Fruit, Vines = Read.Vines };
        var text = File.ReadAllText(Path.Combine(ShippedCatalog.Folder, "growth.yaml"));
        foreach (var property in typeof(ClockRules).GetProperties(BindingFlags.Public | BindingFlags.Instance))
        {
            Assert.Contains($"\n  {JsonNamingPolicy.CamelCase.ConvertName(property.Name)}:", text, StringComparison.Ordinal);
            Assert.Equal(property.GetValue(defaults), property.GetValue(Read));
        }
    }

    [Fact]
    public void Shapes_AreThoseOfTheDevelopmentRecords()
    {
        Assert.Equal(ClockRules.Developed.Trees.Shapes, Read.Trees.Shapes);
        Assert.Equal(ClockRules.Developed.Fruit.Shapes, Read.Fruit.Shapes);
        Assert.Equal(ClockRules.Developed.Vines.Shapes, Read.Vines.Shapes);
    }

    [Fact]
    public void Kinship_KnowsTheFamilyOfEveryGenus()
    {
        foreach (var species in ShippedCatalog.Content.Species.Values)
            Assert.Equal(species.Family, ShippedCatalog.Content.Kinship.Family(species.BotanicalName));
    }

    [Theory]
    [InlineData("chillRate: 0 }", "chillRate: 3 }", "clock.vines.shapes[1].chillRate")]
    [InlineData("vineGenera: [Vitis]", "vineGenera: []", "clock.vineGenera")]
    [InlineData("{ value: 1.05, provenance: derived", "{ value: 105, provenance: derived", "clock.slopePrior.value")]
    [InlineData("  huberSpreads: ", "  hubertSpreads: ", "clock.huberSpreads")]
    public void Fault_IsReportedWithItsKey(string from, string to, string key)
    {
        using var copy = new CatalogCopy();
        copy.Change("growth.yaml", from, to);
        Assert.Contains(copy.Faults(), fault => fault.File == "growth.yaml" && fault.Key == key);
    }

    [Fact]
    public void Fault_OnlyFixedStarts()
    {
        using var copy = new CatalogCopy();
        copy.Change("growth.yaml", "dayLengthPower: 0, daysBeforeUsual: 60, chillRate: 0.01", "dayLengthPower: 0, chillRate: 0.01");
        copy.Change("growth.yaml", "dayLengthPower: 1, daysBeforeUsual: 60, chillRate: 0.01", "dayLengthPower: 1, chillRate: 0.01");
        Assert.Equal("clock.fruit.shapes", Assert.Single(copy.Faults()).Key);
    }
}
