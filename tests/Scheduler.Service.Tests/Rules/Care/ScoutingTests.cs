using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules.Care;

/// <summary>Weekly in growth, fortnightly at rest: common practice.</summary>
public class ScoutingTests
{
    private static readonly MadeSeason Summer = new() { Today = new LocalDate(2025, 6, 15), DaysToFrost = 120, WarmDays = 60 };
    private static readonly MadeSeason Winter = new() { Today = new LocalDate(2025, 1, 20), DaysToFrost = 270, WarmDays = 0, HeatAfterCd = 0, WinterMeanC = 0 };

    [Theory]
    [InlineData(6, Verdict.Wait)]
    [InlineData(7, Verdict.DoNow)]
    public void InGrowth_Weekly(int daysAgo, Verdict verdict) => Assert.Equal(verdict, Answer(Summer, Logged(Summer, daysAgo)).Verdict);

    [Theory]
    [InlineData(13, Verdict.Wait)]
    [InlineData(14, Verdict.DoNow)]
    public void AtRest_Fortnightly(int daysAgo, Verdict verdict)
    {
        var answer = Answer(Winter, Logged(Winter, daysAgo));
        Assert.Equal((verdict, "fortnightly"), (answer.Verdict, answer.Amount[0]["look"]));
    }

    [Fact]
    public void Observation_OfNoSigns_IsALook()
    {
        var answer = Answer(Summer, seen: Trees.Seen(Summer.Today.PlusDays(-3)) with { PestSigns = false });
        Assert.Equal((Verdict.Wait, "{days:[4,4]}"), (answer.Verdict, Reading.Canonical(answer.Opens!.Fields)));
    }

    [Fact]
    public void Signs_AreTheMainReason_AndNoProductIsNamed()
    {
        var answer = Answer(Summer, seen: Trees.Seen(Summer.Today.PlusDays(-8)) with { PestSigns = true });
        Assert.Equal("pest-found", answer.Reasons[0].Id);
        Assert.Contains(answer.Cautions, text => text.Contains("label and your local law", StringComparison.Ordinal));
    }

    [Fact]
    public void Heat_IsToldFromTheMembersOwnDays()
    {
        // Sixty days of 15 C on average stand above base 10 by 5 a day; the last one is today, still under way.
        var answer = Answer(Summer);
        Assert.Equal(Verdict.DoNow, answer.Verdict);
        Assert.Equal(300.0, Convert.ToDouble(answer.Amount[0]["heat10Cd"], null), 10.0);
    }

    private static WorkRecord Logged(MadeSeason season, int daysAgo) => Trees.Work("scouting", season.Today.PlusDays(-daysAgo));

    private static TechniqueAdvice Answer(MadeSeason season, WorkRecord? work = null, Observation? seen = null)
    {
        var facts = Trees.Facts(Trees.Tree("ulmus-parvifolia", TreeStage.Refinement, Goal.Slender), season.Site(), work is null ? [] : [work], seen is null ? [] : [seen]);
        return Advisor.Advise(Trees.Craft, facts, Trees.Garden(season)).Advice("scouting");
    }
}
