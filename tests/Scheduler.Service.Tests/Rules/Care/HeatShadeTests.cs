using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules.Care;

/// <summary>Shade by forecast maximum: 30, 33 or 35 C, common practice.</summary>
public class HeatShadeTests
{
    private static readonly MadeSeason Summer = new() { Today = new LocalDate(2025, 7, 1), DaysToFrost = 110, WarmDays = 90 };

    [Theory]
    [InlineData("acer-palmatum", 29.9, Verdict.Wait)]
    [InlineData("acer-palmatum", 30, Verdict.DoNow)]
    [InlineData("ulmus-parvifolia", 34.9, Verdict.Wait)]
    [InlineData("ulmus-parvifolia", 35, Verdict.DoNow)]
    [InlineData("olea-europaea", 38, Verdict.Leave)]
    [InlineData("ficus", 38, Verdict.Leave)]
    public void Limit_DependsOnTheTree(string species, double tomorrowC, Verdict verdict) => Assert.Equal(verdict, Answer(species, [25, tomorrowC, 25]).Verdict);

    [Theory]
    [InlineData(21, Verdict.DoNow)]
    [InlineData(22, Verdict.Wait)]
    public void BaredLeaves_SufferEarlier(int daysAgo, Verdict verdict) =>
        Assert.Equal(verdict, Answer("ulmus-parvifolia", [25, 33, 25], work: Trees.Work("leaf-thinning", Summer.Today.PlusDays(-daysAgo))).Verdict);

    [Fact]
    public void HeatLater_WaitsForTheDayBefore()
    {
        var answer = Answer("ulmus-parvifolia", [25, 26, 27, 36, 25]);
        Assert.Equal((Verdict.Wait, "heat-trigger", "{days:[2,2]}"), (answer.Verdict, answer.Reasons[0].Id, Reading.Canonical(answer.Opens!.Fields)));
        Assert.Equal(Summer.Today.PlusDays(3), answer.Window!.Opens.Likely);
    }

    [Theory]
    [InlineData(31, Verdict.Wait, 0)]
    [InlineData(32, Verdict.Wait, 1)]
    [InlineData(35, Verdict.DoNow, 0)]
    public void RootBall_CountsByItself(double ballC, Verdict verdict, int warnings)
    {
        var answer = Answer("ulmus-parvifolia", [25, 25], garden => garden with { RootBallC = ballC });
        Assert.Equal((verdict, warnings), (answer.Verdict, answer.Cautions.Count(text => text.StartsWith("The root ball is at", StringComparison.Ordinal))));
    }

    [Fact]
    public void Conifer_GetsShadeOnThePotOnly() => Assert.Equal("pot", Answer("pinus-sylvestris", [36, 36]).Amount[0]["shade"]);

    [Fact]
    public void IndoorsOrAtRest_IsOutOfSeason()
    {
        Assert.Equal(Verdict.Leave, Answer("acer-palmatum", [36, 36], placement: Placement.Indoors).Verdict);
        var winter = Summer with { Today = new LocalDate(2025, 1, 20), DaysToFrost = 270, WarmDays = 0, HeatAfterCd = 0, WinterMeanC = 0 };
        var facts = Trees.Facts(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), winter.Site());
        Assert.Equal(Verdict.Leave, Advisor.Advise(Trees.Craft, facts, Trees.Garden(winter, maxC: [31, 31])).Advice("heat-shade").Verdict);
    }

    private static TechniqueAdvice Answer(string species, double[] maxC, Func<GardenFacts, GardenFacts>? change = null, WorkRecord? work = null, Placement placement = Placement.Open)
    {
        var tree = Trees.Tree(species, TreeStage.Refinement, Goal.Slender) with { Placement = placement };
        var facts = Trees.Facts(tree, Summer.Site(), work is null ? [] : [work], [Trees.Seen(Summer.Today) with { Bbch = 39 }]);
        var garden = Trees.Garden(Summer, [12, 12, 12, 12, 12, 12, 12], maxC);
        return Advisor.Advise(Trees.Craft, facts, change?.Invoke(garden) ?? garden).Advice("heat-shade");
    }
}
