using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog;

public class YamlMapTests
{
    private readonly FaultList _faults = new();

    private YamlMap Read(string text)
    {
        using var reader = new StringReader(text);
        return YamlFile.Parse(reader, "test.yaml", _faults)!;
    }

    private IEnumerable<(int Line, string Key, string? Value)> Faults => _faults.All.Select(fault => (fault.Line, fault.Key, fault.Value));

    [Fact]
    public void Values_OfEveryKind_AreRead()
    {
        var map = Read("""
            name: yes, a name
            share: 0.5
            count: 3
            on: true
            size: xl
            stages: [trunk-building, refinement]
            inner: { deep: { deeper: 1 } }
            list:
              - text: one
              - two
            """);
        Assert.Equal(("yes, a name", 0.5, 3, true), (map.Text("name"), map.Number("share", 0, 1), map.Whole("count", 0, 9), map.Flag("on")));
        Assert.Equal(TreeSize.Xl, map.Enum<TreeSize>("size"));
        Assert.Equal([TreeStage.TrunkBuilding, TreeStage.Refinement], map.Enums<TreeStage>("stages"));
        Assert.Equal(1, map.Map("inner").Map("deep").Whole("deeper", 0, 1));
        var list = map.TextsOrMaps("list");
        Assert.Equal(("one", "two"), (list[0].Map!.Text("text"), list[1].Text));
        map.RefuseUnknownKeys();
        Assert.Empty(_faults.All);
    }

    [Theory]
    [InlineData("1,5", "1,5")]
    [InlineData("nan", "nan")]
    [InlineData("0x10", "0x10")]
    [InlineData("1000", "1000")]
    [InlineData("2.5", "2.5")]
    [InlineData("[3]", null)]
    public void Whole_WrittenWrongly_IsOneFault(string written, string? told)
    {
        Read($"other: 1\ncount: {written}\n").Whole("count", 0, 100);
        Assert.Equal([(2, "count", told)], Faults);
    }

    [Theory]
    [InlineData("a: 1")]
    [InlineData("count:")]
    [InlineData("count: ~")]
    public void Whole_LeftOut_IsMissing(string text)
    {
        Read(text).Whole("count", 0, 100);
        Assert.Equal([(1, "count", null)], Faults);
    }

    [Fact]
    public void UnknownKeys_AreFoundAtEveryDepth()
    {
        var map = Read("""
            outer:
              known: 1
              knwon: 2
            list:
              - known: 1
              - knwon: 2
            extra: 3
            """);
        map.Map("outer").Whole("known", 0, 9);
        foreach (var entry in map.Maps("list"))
            entry.OptionalWhole("known", 0, 9);
        map.RefuseUnknownKeys();
        Assert.Equal([(3, "outer.knwon", null), (6, "list[1].knwon", null), (7, "extra", null)], Faults.Order());
    }

    [Fact]
    public void List_WithAWordTwice_NamesTheLineOfTheSecond()
    {
        Read("words:\n  - one\n  - two\n  - one\n").Choices("words", ["one", "two"]);
        Assert.Equal([(4, "words", "one")], Faults);
    }

    [Fact]
    public void Plain_KeepsTheTypesOfValues()
    {
        var plain = Read("at: { whole: 2, part: 0.5, on: true, text: '2', span: [1, 2] }").Plain("at")!;
        Assert.Equal((2, 0.5, true, "2"), (plain["whole"], plain["part"], plain["on"], plain["text"]));
        Assert.Equal([1, 2], (IReadOnlyList<object?>)plain["span"]!);
    }
}
