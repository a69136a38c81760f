using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Tip work on conifers other than pines, each group in its one mode (common practice).</summary>
public class ConiferTipsTests
{
    private static readonly MadeSeason Summer = new() { Today = new LocalDate(2025, 6, 20), DaysToFrost = 120, WarmDays = 60 };

    [Theory]
    [InlineData("juniperus-chinensis", null, "runner-cut")]
    [InlineData("juniperus-chinensis", "JNN", "needle-tips")]
    [InlineData("picea", null, "spruce-pinch")]
    [InlineData("taxus", null, "yew-tips")]
    [InlineData("larix", null, "larch-tips")]
    [InlineData("chamaecyparis-obtusa", null, "fan-thinning")]
    public void EachGroup_HasItsOwnMode(string species, string? group, string mode)
    {
        var answer = Advise(Tree(species) with { Group = group }, Summer);
        Assert.Equal([mode], answer.Parts.Select(part => part.Mode).Distinct());
        Assert.NotEqual(Verdict.NotAllowed, answer.Verdict);
        Assert.Equal(35, answer.Parts[0].Minutes);
    }

    [Theory]
    [InlineData("acer-palmatum")]
    [InlineData("pinus-thunbergii")]
    public void OtherGroups_HaveNone(string species)
    {
        var answer = Advise(Tree(species), Summer);
        Assert.Equal((Verdict.NotAllowed, "not-for-this-group"), (answer.Verdict, answer.Reasons[0].Id));
    }

    [Theory]
    [InlineData(2.5, true, Verdict.DoNow)]
    [InlineData(0.5, true, Verdict.Wait)]
    [InlineData(2.5, false, Verdict.Wait)]
    [InlineData(null, true, Verdict.Ask)]
    public void Runners_AreCutPastTheOutlineOnFirmGrowth(double? cm, bool firm, Verdict verdict) => Assert.Equal(verdict, Advise(
        Tree("juniperus-chinensis"), Summer, [Trees.Seen(Summer.Today) with { PastOutlineCm = cm, SpringGrowthFirm = firm }]).Verdict);

    [Theory]
    [InlineData(46, Verdict.DoNow)]
    [InlineData(44, Verdict.Missed)]
    public void Runners_StayLateInTheYear(int daysToFrost, Verdict verdict) => Assert.Equal(verdict, Advise(
        Tree("juniperus-chinensis"), Summer with { DaysToFrost = daysToFrost, Today = new LocalDate(2025, 9, 1), WarmDays = 130 },
        [Trees.Seen(new LocalDate(2025, 9, 1)) with { PastOutlineCm = 3, SpringGrowthFirm = true }]).Verdict);

    [Theory]
    [InlineData(47, 5)]
    [InlineData(-43, 11)]
    public void Spruce_IsPinchedWhileTender(double latitude, int month)
    {
        var season = new MadeSeason { Latitude = latitude, Today = new LocalDate(2025, month, 25), DaysToFrost = 140, WarmDays = 40 };
        Assert.Equal(Verdict.DoNow, Seen(35).Verdict);
        Assert.Equal(Verdict.Missed, Seen(38).Verdict);

        TechniqueAdvice Seen(int bbch) => Advise(Tree("picea"), season, [Trees.Seen(season.Today) with { Bbch = bbch }]);
    }

    [Theory]
    [InlineData("picea", Extent.Light, true)]
    [InlineData("taxus", Extent.Light, false)]
    [InlineData("taxus", Extent.Normal, true)]
    public void SeasonOfRootWork_BarsByKind(string species, Extent extent, bool barred)
    {
        var facts = Trees.Facts(Tree(species), Summer.Site(), [Trees.Work("repotting", Summer.Today.PlusDays(-80)) with { Extent = extent }]);
        var answer = Advisor.Advise(Trees.Craft, facts, Trees.Garden(Summer)).Advice("conifer-tips");
        Assert.Equal(barred, answer.Verdict == Verdict.NotAllowed);
        if (barred)
            Assert.Equal("roots-rebuilding", answer.Reasons[0].Id);
    }

    [Fact]
    public void Yew_IsToldToBePoisonous()
    {
        var answer = Advise(Tree("taxus"), Summer, [Trees.Seen(Summer.Today) with { ShootCm = 3 }]);
        Assert.Equal(Verdict.DoNow, answer.Verdict);
        Assert.Contains(answer.Cautions, text => text.Contains("poisonous", StringComparison.Ordinal));
    }

    [Fact]
    public void TrunkInTheMaking_KeepsItsTips() =>
        Assert.Equal("leaves-are-fuel", Advise(Tree("larix") with { Stage = TreeStage.TrunkBuilding }, Summer).Reasons[0].Id);

    private static Tree Tree(string species) => Trees.Tree(species, TreeStage.Refinement, Goal.Slender);

    private static TechniqueAdvice Advise(Tree tree, MadeSeason season, IReadOnlyList<Observation>? seen = null) =>
        Advisor.Advise(Trees.Craft, Trees.Facts(tree, season.Site(), [], seen), Trees.Garden(season)).Advice("conifer-tips");
}
