using Scheduler.Service.Catalog;
using Scheduler.Service.Catalog.Checks;

namespace Scheduler.Service.Tests.Catalog.Checks;

public class CraftCheckTests
{
    [Fact]
    public void ShippedRules_DoNotContradictEachOther()
    {
        var findings = Check(ShippedCatalog.Folder);
        Assert.True(findings.Contradictions.Count == 0, Told(findings.Contradictions));
    }

    [Fact]
    public void ShippedRules_CanAllAct()
    {
        var findings = Check(ShippedCatalog.Folder);
        Assert.True(findings.DeadRules.Count == 0, Told(findings.DeadRules));
    }

    internal static CraftFindings Check(string folder)
    {
        var files = CatalogFiles.Open(folder, null, new FaultList());
        return CraftCheck.Of(CatalogLoader.Load(folder), files.Techniques);
    }

    private static string Told(IEnumerable<CatalogFault> faults) => string.Join(Environment.NewLine, faults);
}
