using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog.Checks;

/// <summary>Catalogs broken on purpose: each finding must name both places.</summary>
public sealed class BrokenCraftTests : IDisposable
{
    private const string CutBack = "techniques/cut-back.yaml", Decandling = "techniques/decandling.yaml", Pinch = "techniques/tip-pinch.yaml";

    private readonly CatalogCopy _copy = new();

    public void Dispose() => _copy.Dispose();

    [Fact]
    public void WindowRule_NamingABarredGroup_IsAContradictionWithTheTable()
    {
        var line = _copy.Change(CutBack, "- for: { groups: [YEW, DCN] }\n        opens", "- for: { groups: [YEW, DCN, SPF] }\n        opens");
        var table = Line(CutBack, "  SPF: ");
        AssertContradiction(CutBack, line, "modes[0].windows[2]", "group SPF", $"{CutBack}:{table} groups.SPF");
    }

    [Fact]
    public void Table_BarringAGroupThatRulesName_IsAContradictionOfEachRule()
    {
        var table = _copy.Change(CutBack, "  DCN: \"yes\"", "  DCN: \"no: not-for-this-group\"");
        var found = Contradictions();
        Assert.All(found, fault => Assert.Contains($"{CutBack}:{table} groups.DCN", fault.Problem, StringComparison.Ordinal));
        Assert.Contains(found, fault => fault.Key == "modes[0].windows[2]");
        Assert.Contains(found, fault => fault.Key == "modes[0].how[2]");
    }

    [Fact]
    public void Amount_ForABarredStage_IsAContradictionWithTheTable()
    {
        var table = _copy.Change(CutBack, "  refinement: missed-shoots-only", "  refinement: \"no: leaves-are-fuel\"");
        var found = Contradictions();
        Assert.Contains(found, fault => fault.Key == "modes[0].amounts[1]" && fault.Problem.Contains($"{CutBack}:{table} stages.refinement", StringComparison.Ordinal));
    }

    [Fact]
    public void Rule_ForABarredGoal_IsAContradictionWithTheTable()
    {
        var table = _copy.Change(CutBack, "  thicken-branch: wanted", "  thicken-branch: \"no: pinching-thins\"");
        Assert.Contains(Contradictions(), fault => fault.Problem.Contains("goal thicken-branch", StringComparison.Ordinal)
            && fault.Problem.Contains($"{CutBack}:{table} goals.thicken-branch", StringComparison.Ordinal));
    }

    [Fact]
    public void Fallback_ToWorkThatIsBarredForItsGroup_IsAContradictionBetweenTwoFiles()
    {
        var table = _copy.Change(CutBack, "  EBW: \"yes\"", "  EBW: \"no: not-for-this-group\"");
        Assert.Contains(Contradictions(), fault => fault.File == Pinch && fault.Key.StartsWith("modes[0].fallbacks", StringComparison.Ordinal)
            && fault.Problem.Contains($"group EBW to cut-back, which a table bars for it ({CutBack}:{table} groups.EBW)", StringComparison.Ordinal));
    }

    [Fact]
    public void FollowUp_ToWorkThatIsBarredForItsGroup_IsAContradictionBetweenTwoFiles()
    {
        const string thinning = "techniques/leaf-thinning.yaml";
        var table = _copy.Change(thinning, "  EBW: \"yes\"", "  EBW: \"no: not-for-this-group\"");
        Assert.Contains(Contradictions(), fault => fault.File == Pinch && fault.Key.StartsWith("modes[0].followUps", StringComparison.Ordinal)
            && fault.Problem.Contains($"{thinning}:{table} groups.EBW", StringComparison.Ordinal));
    }

    [Fact]
    public void Windows_ThatLeaveATreeOut_AreAContradictionWithTheTable()
    {
        _copy.Change(Decandling, "      - opens: { bbch: 35, remainingHeatCd: { base: 10, below: 1050 } }", "      - for: { sizes: [s] }\n        opens: { bbch: 35, remainingHeatCd: { base: 10, below: 1050 } }");
        Assert.Contains(Contradictions(), fault => fault.File == Decandling && fault.Key == "modes[0].windows"
            && fault.Problem.Contains("has no entry", StringComparison.Ordinal) && fault.Problem.Contains($"{Decandling}:{Line(Decandling, "  PN2: ")} groups.PN2", StringComparison.Ordinal));
    }

    [Fact]
    public void Rule_ThatNoSpeciesCanMeet_IsDead()
    {
        var line = _copy.Change(CutBack, "- for: { groups: [FNW] }\n        opens", "- for: { groups: [YEW], attributes: [prunus] }\n        opens");
        var dead = Assert.Single(Dead(), fault => fault.Key == "modes[0].windows[1]");
        Assert.Equal((CutBack, line), (dead.File, dead.Line));
        Assert.Contains("no tree", dead.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Rule_BehindOneThatAlwaysFits_IsDeadAndNamesTheOther()
    {
        _copy.Change(CutBack, "- for: { groups: [DSF], stages: [ramification], goals: [slender, back-bud, flowers, light] }", "- for: { groups: [DSF] }");
        var dead = Assert.Single(Dead());
        Assert.Equal("modes[0].windows[7]", dead.Key);
        Assert.Contains($"{CutBack}:", dead.Problem, StringComparison.Ordinal);
        Assert.Contains("modes[0].windows[6]", dead.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Species_OfAGroupThatIsNotThere_NamesTheGroup()
    {
        var line = _copy.Change("species/salix.yaml", "group: DMF", "group: DMX");
        Assert.Contains(_copy.Faults(), fault => (fault.File, fault.Line, fault.Value) == ("species/salix.yaml", line, "DMX"));
    }

    private void AssertContradiction(string file, int line, string key, string what, string other)
    {
        var fault = Assert.Single(Contradictions());
        Assert.Equal((file, line, key), (fault.File, fault.Line, fault.Key));
        Assert.Contains(what, fault.Problem, StringComparison.Ordinal);
        Assert.Contains(other, fault.Problem, StringComparison.Ordinal);
    }

    private IReadOnlyList<CatalogFault> Contradictions() => CraftCheckTests.Check(_copy.Folder).Contradictions;

    private IReadOnlyList<CatalogFault> Dead() => CraftCheckTests.Check(_copy.Folder).DeadRules;

    private int Line(string name, string start) =>
        _copy.Read(name).Split('\n').Select((text, index) => (text, index)).First(line => line.text.StartsWith(start, StringComparison.Ordinal)).index + 1;
}
