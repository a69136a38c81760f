using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.Hosting;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog;

public class CatalogLoaderTests
{
    [Fact]
    public void Folder_WithManyFaults_GivesThemAllAtOnceWithTheirLines()
    {
        using var copy = new CatalogCopy();
        const string maple = "species/acer-palmatum.yaml", yew = "species/taxus.yaml";
        var expected = new (string, int, string, string?)[]
        {
            (maple, copy.Change(maple, "family: Sapindaceae\n", "familly: Sapindaceae\n"), "familly", null),
            (maple, 1, "family", null),
            (maple, copy.Change(maple, "group: MPJ", "group: MPX"), "group", "MPX"),
            (maple, copy.Change(maple, "[opposite, bleeder, ", "[opposite, bleader, "), "attributes", "bleader"),
            (maple, copy.Change(maple, "budSwellCd: { value: 60,", "budSwellCd: { value: sixty,"), "thermalTimes.budSwellCd.value", "sixty"),
            (maple, copy.Change(maple, "{ value: 40, provenance: estimate }", "{ value: 400, provenance: estimate }"), "thermalTimes.chillPortions.value", "400"),
            (maple, copy.Change(maple, "newLeafDamageC: { value: -2.5, provenance: estimate }", "newLeafDamageC: -2.5"), "hardiness.newLeafDamageC", "-2.5"),
            (yew, copy.Change(yew, "coldest: 5a", "coldest: 9a"), "hardiness.zones.warmest", "7b"),
            (yew, copy.Change(yew, "firstLeafCd: { value: 185", "firstLeafCd: { value: 18"), "thermalTimes.firstLeafCd", null),
            (yew, copy.Change(yew, "  provenance: published\n  source: 'Lists", "  provenance: hearsay\n  source: 'Lists"), "cautions.provenance", "hearsay"),
            ("growth.yaml", copy.Change("growth.yaml", "value: 8\n  provenance: estimate", "value: 8\n  provenance: published"), "leastHalfWidthDays.source", null)
        };

        var faults = copy.Faults();

        Assert.Equal(expected.Order(), faults.Select(fault => (fault.File, fault.Line, fault.Key, fault.Value)).Order());
        Assert.All(faults, fault => Assert.EndsWith(".", fault.Remedy.TrimEnd('?') + ".", StringComparison.Ordinal));
    }

    [Fact]
    public void UnknownKey_NamesTheNearestKnownOne()
    {
        using var copy = new CatalogCopy();
        copy.Change("species/malus.yaml", "  chillPortions:", "  chilPortions:");
        var unknown = Assert.Single(copy.Faults(), fault => fault.Key == "thermalTimes.chilPortions");
        Assert.Contains("chillPortions", unknown.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Id_OfTwoFiles_IsAFaultOfTheSecond()
    {
        using var copy = new CatalogCopy();
        copy.Write("species/zelkova-two.yaml", copy.Read("species/zelkova-serrata.yaml"));
        var fault = Assert.Single(copy.Faults());
        Assert.Equal(("species/zelkova-two.yaml", 1, "id", "zelkova-serrata"), (fault.File, fault.Line, fault.Key, fault.Value));
    }

    [Fact]
    public void Id_UnlikeItsFile_IsAFault()
    {
        using var copy = new CatalogCopy();
        copy.Change("species/larix.yaml", "id: larix", "id: larch");
        Assert.Equal("larch", Assert.Single(copy.Faults()).Value);
    }

    [Theory]
    [InlineData("id: buxus\nfamily: 'Buxaceae\n", 2)]
    [InlineData("id: buxus\nid: buxus\n", 2)]
    [InlineData("- one\n- two\n", 1)]
    [InlineData("", 1)]
    public void File_ThatIsNoMap_IsOneFault(string text, int line)
    {
        using var copy = new CatalogCopy();
        copy.Write("species/buxus.yaml", text);
        var fault = Assert.Single(copy.Faults());
        Assert.Equal(("species/buxus.yaml", line), (fault.File, fault.Line));
    }

    [Fact]
    public void Folder_Missing_SaysWhichSettingToChange()
    {
        var faults = Assert.Throws<CatalogException>(() => CatalogLoader.Load("/nowhere/at/all")).Faults;
        Assert.Contains(faults, fault => fault.Remedy.Contains("Catalog:Folder", StringComparison.Ordinal));
    }

    [Fact]
    public void Service_WithAFaultyCatalog_ListsTheFaultsAndDoesNotStart()
    {
        using var copy = new CatalogCopy();
        var line = copy.Change("species/salix.yaml", "group: DMF", "group: XXX");
        var builder = new HostApplicationBuilder();
        builder.Configuration.AddInMemoryCollection(new Dictionary<string, string?> { ["Catalog:Folder"] = copy.Folder });
        using var error = new StringWriter();

        Assert.False(builder.TryAddCatalog(error));

        Assert.Contains($"species/salix.yaml:{line}: group 'XXX' is not known.", error.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(builder.Services, service => service.ServiceType == typeof(CatalogContent));
    }
}
