using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog;

/// <summary>An owner's folder laid over the shipped catalog.</summary>
public sealed class OwnFolderTests : IDisposable
{
    private readonly string _own = Directory.CreateTempSubdirectory("own-").FullName;

    public void Dispose() => Directory.Delete(_own, recursive: true);

    [Fact]
    public void Species_BasedOnOurs_ChangesOnlyWhatItNames()
    {
        Write("species/acer-palmatum.yaml", "id: acer-palmatum\nbasedOn: acer-palmatum\nthermalTimes:\n  budSwellCd: { value: 70, provenance: estimate }\n");
        var (own, ours) = (Load().Species["acer-palmatum"], ShippedCatalog.Content.Species["acer-palmatum"]);
        Assert.Equal(70, own.ThermalTimes.BudSwellCd!.Value);
        Assert.Equal(ours.ThermalTimes.FirstLeafCd, own.ThermalTimes.FirstLeafCd);
        Assert.Equal(ours.Group, own.Group);
    }

    [Fact]
    public void Species_OfItsOwn_IsAddedToOurs()
    {
        Write("species/acer-inventum.yaml", "id: acer-inventum\nbasedOn: acer-palmatum\nbotanicalName: Acer inventum\ncommonName: invented maple\n");
        var content = Load();
        Assert.Equal("Acer inventum", content.Species["acer-inventum"].BotanicalName);
        Assert.Equal(ShippedCatalog.Content.Species.Count + 1, content.Species.Count);
        Assert.Equal(["species/acer-inventum.yaml"], content.OwnFiles);
    }

    [Fact]
    public void Block_WithANumber_IsReplacedWithItsProvenance()
    {
        var ours = ShippedCatalog.Content.Craft.Thresholds;
        Write("thresholds.yaml", "actBloomC: { value: 2, provenance: estimate }\n");
        var own = Load().Craft.Thresholds;
        Assert.NotNull(ours.ActBloomC.Source);
        Assert.Equal((2.0, null), (own.ActBloomC.Value, own.ActBloomC.Source));
        Assert.Equal(ours.ActBudBurstC, own.ActBudBurstC);
    }

    [Fact]
    public void Technique_OfTheSameId_ReplacesOursWhole()
    {
        var text = File.ReadAllText(Path.Combine(ShippedCatalog.Folder, "techniques/early-clip.yaml"));
        Write("techniques/early-clip.yaml", text.Replace("name: ", "name: Own ", StringComparison.Ordinal));
        Assert.StartsWith("Own ", Load().Craft.Find("early-clip")!.Name, StringComparison.Ordinal);
    }

    [Fact]
    public void Technique_OfANewId_MayBeLogged()
    {
        var text = File.ReadAllText(Path.Combine(ShippedCatalog.Folder, "techniques/early-clip.yaml"));
        Write("techniques/moss-care.yaml", text.Replace("id: early-clip", "id: moss-care", StringComparison.Ordinal));
        var content = Load();
        Assert.Contains("moss-care", content.TechniqueIds);
        Assert.NotNull(content.Craft.Find("moss-care"));
    }

    [Fact]
    public void Group_LikeAnother_AnswersLikeIt()
    {
        Write("groups.yaml", "XXA: { name: invented, behavior: As the other., like: AZA, severalFlushes: true, growsWheneverWarm: false, conifer: false, dormancyCut: false }\n");
        var craft = Load().Craft;
        Assert.All(craft.Techniques.Where(technique => technique.Groups.Count > 0), technique => Assert.Equal(technique.Groups["AZA"].ToString(), technique.Groups["XXA"].ToString()));
        var rule = craft.Find("cut-back")!.Modes[0].Windows.First(window => window.For.Groups.Contains("AZA"));
        Assert.Contains("XXA", rule.For.Groups);
    }

    [Fact]
    public void Group_WithoutARowInTheTables_IsAFaultOfEachTable()
    {
        Write("groups.yaml", "XXA: { name: invented, behavior: Alone., severalFlushes: true, growsWheneverWarm: false, conifer: false, dormancyCut: false }\n");
        Assert.Contains(Faults(), fault => fault.File == "techniques/cut-back.yaml" && fault.Key == "groups.XXA");
    }

    [Fact]
    public void Setting_MayHaveAnotherDefault()
    {
        Write("settings.yaml", "\"3\":\n  question: Which?\n  choices: { \"yes\": Yes., \"no\": No. }\n  default: \"yes\"\n  provenance: common-practice\n");
        Assert.Equal("yes", Load().Craft.Settings.Of("3", new Dictionary<string, string>()));
        Assert.Equal("no", ShippedCatalog.Content.Craft.Settings.Of("3", new Dictionary<string, string>()));
    }

    [Fact]
    public void Fault_OfAnOwnFile_NamesItWithItsLine()
    {
        Write("species/acer-palmatum.yaml", "id: acer-palmatum\nbasedOn: acer-palmatum\ngroup: MPX\n");
        var fault = Assert.Single(Faults());
        Assert.Equal(("own/species/acer-palmatum.yaml", 3, "group", "MPX"), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.NotEmpty(fault.Remedy);
    }

    [Fact]
    public void File_AtAPlaceWeDoNotRead_IsAFault()
    {
        Write("specis/maple.yaml", "id: maple\n");
        Assert.Equal("own/specis/maple.yaml", Assert.Single(Faults()).File);
    }

    [Fact]
    public void Contradiction_OfAnOwnRule_RefusesTheCatalog()
    {
        var text = File.ReadAllText(Path.Combine(ShippedCatalog.Folder, "techniques/cut-back.yaml"));
        Write("techniques/cut-back.yaml", text.Replace("- for: { groups: [FNW] }\n        opens", "- for: { groups: [FNW, PN1] }\n        opens", StringComparison.Ordinal));
        var fault = Assert.Single(Faults());
        Assert.Equal("own/techniques/cut-back.yaml", fault.File);
        Assert.Contains("groups.PN1", fault.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void DeadRule_OfAnOwnFile_IsAWarning()
    {
        var text = File.ReadAllText(Path.Combine(ShippedCatalog.Folder, "techniques/cut-back.yaml"));
        Write("techniques/cut-back.yaml", text.Replace("- for: { groups: [FNW] }\n        opens", "- for: { groups: [FNW], attributes: [succulent] }\n        opens", StringComparison.Ordinal));
        Assert.Equal("modes[0].windows[1]", Assert.Single(Load().Warnings).Key);
    }

    private CatalogContent Load() => CatalogLoader.Load(ShippedCatalog.Folder, _own);

    private IReadOnlyList<CatalogFault> Faults() => Assert.Throws<CatalogException>(Load).Faults;

    private void Write(string name, string text)
    {
        var path = Path.Combine(_own, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
    }
}
