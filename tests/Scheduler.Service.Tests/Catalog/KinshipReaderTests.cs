using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog;

public class KinshipReaderTests
{
    [Fact]
    public void ShippedFamilies_AgreeWithTheSpeciesFiles()
    {
        var kinship = KinshipReader.Load(ShippedCatalog.Folder);

        Assert.All(ShippedCatalog.Content.Species.Values, species => Assert.Equal(species.Family, kinship.Family(species.BotanicalName)));
    }

    [Fact]
    public void GenusUnderTwoFamilies_IsAFault()
    {
        using var copy = new CatalogCopy();
        var line = copy.Change(KinshipReader.File, "Ginkgoaceae: [Ginkgo]", "Ginkgoaceae: [Ginkgo, Acer]");

        var fault = Assert.Single(copy.Faults());

        Assert.Equal((KinshipReader.File, "Acer"), (fault.File, fault.Value));
        Assert.Contains("Ginkgoaceae", fault.Problem, StringComparison.Ordinal);
        Assert.True(fault.Line > line);
        Assert.Throws<CatalogException>(() => KinshipReader.Load(copy.Folder));
    }
}
