using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules.Care;

/// <summary>The watering index: factors are estimates of the catalog, evaporation without forecast is FAO-56 equation 52.</summary>
public class WateringTests
{
    private static readonly MadeSeason Summer = new() { Today = new LocalDate(2025, 7, 15), Latitude = 45.72, DaysToFrost = 100, WarmDays = 100 };

    [Fact]
    public void WithoutForecastEvaporation_HargreavesIsTaken()
    {
        // FAO-56 example 20: Lyon, 45.72 N, mid July (day 196), 14.8 and 26.6 C: 5.0 mm a day.
        var answer = Answer(Tree(), day => new DayWeather(day.Date, 14.8, 26.6, 0, 10, null, day.Kind));
        Assert.Contains("reference evaporation 5.0 mm, worked out from temperature", answer.Reasons[0].Text, StringComparison.Ordinal);
        Assert.Contains("index 5.0 ", answer.Reasons[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void ForecastEvaporation_GoesBeforeTheEstimate() =>
        Assert.Contains("reference evaporation 3.0 mm;", Answer(Tree(), With(3)).Reasons[0].Text, StringComparison.Ordinal);

    [Theory]
    // 2 mm with hardened leaves: pot, place, wind and species as the catalog says.
    [InlineData("ulmus-parvifolia", TreeSize.M, Placement.Open, 10, "2.0")]
    [InlineData("ulmus-parvifolia", TreeSize.Xs, Placement.Open, 10, "3.0")]
    [InlineData("ulmus-parvifolia", TreeSize.L, Placement.Open, 10, "1.7")]
    [InlineData("ulmus-parvifolia", TreeSize.M, Placement.Open, 45, "2.4")]
    [InlineData("ulmus-parvifolia", TreeSize.M, Placement.ColdFrame, 45, "1.2")]
    public void Factors_Multiply(string species, TreeSize size, Placement placement, double gustKmh, string index)
    {
        var answer = Answer(Tree(species) with { Size = size, Placement = placement }, day => new DayWeather(day.Date, 15, 25, 0, gustKmh, 2, day.Kind));
        Assert.Contains($"index {index} ", answer.Reasons[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Succulent_DrawsLess() =>
        // 3 mm x 1.0 in warm nights x 0.3 for the species.
        Assert.Contains("index 0.9 ", Answer(Tree("portulacaria-afra"), day => new DayWeather(day.Date, 15, 25, 0, 10, 3, day.Kind)).Reasons[0].Text, StringComparison.Ordinal);

    [Theory]
    [InlineData("leaf-thinning", 60, "2.4")]
    [InlineData("outer-leaf-removal", 10, "2.0")]
    [InlineData("full-defoliation", 5, "0.9")]
    [InlineData("full-defoliation", 90, "3.0")]
    public void LeavesTaken_DrawLess_UntilTheyAreBack(string work, int daysAgo, string index) =>
        Assert.Contains($"index {index} ", Answer(Tree(), With(3), Trees.Work(work, Summer.Today.PlusDays(-daysAgo))).Reasons[0].Text, StringComparison.Ordinal);

    [Theory]
    [InlineData(TreeSize.S, 28, "several-a-day")]
    [InlineData(TreeSize.S, 27.9, "daily")]
    [InlineData(TreeSize.M, 30, "daily")]
    public void SmallPotInHeat_SeveralTimes(TreeSize size, double maxC, string check) =>
        Assert.Equal(check, Answer(Tree() with { Size = size }, day => new DayWeather(day.Date, 15, maxC, 0, 10, 5, day.Kind)).Amount[0]["check"]);

    [Fact]
    public void LittleDrawn_WaitsSoManyDaysAfterTheLastWatering()
    {
        var weather = With(0.3);
        Assert.Equal(Verdict.DoNow, Answer(Tree(), weather).Verdict);
        var answer = Answer(Tree(), weather, Trees.Work("watering", Summer.Today.PlusDays(-1)));
        Assert.Equal((Verdict.Wait, "{days:[2,2]}"), (answer.Verdict, Reading.Canonical(answer.Opens!.Fields)));
        Assert.Equal(3, answer.Amount[0]["days"]);
    }

    [Fact]
    public void DryBall_IsLookedAtWhateverTheIndex() => Assert.Equal("root-ball-dry", Answer(Tree(), With(0.1), garden: one => one with { SoilDry = true }).Reasons[0].Id);

    [Fact]
    public void BeforeFrost_MoistNotSodden() => Assert.Contains(Answer(Tree(), day => new DayWeather(day.Date, -1, 10, 0, 10, 1, day.Kind)).Cautions, text => text.StartsWith("Frost is coming", StringComparison.Ordinal));

    [Fact]
    public void NoWindow_IsMadeOfIt() => Assert.DoesNotContain(
        WindowFinder.Find(Trees.Craft, Facts(Tree()), Trees.Garden(Summer)).Windows, window => window.Key.Technique is "watering" or "scouting");

    private static Func<DayWeather, DayWeather> With(double et0Mm) => day => new DayWeather(day.Date, 15, 25, 0, 10, et0Mm, day.Kind);

    private static Tree Tree(string species = "ulmus-parvifolia") => Trees.Tree(species, TreeStage.Refinement, Goal.Slender);

    private static TreeFacts Facts(Tree tree, params WorkRecord[] work) =>
        Trees.Facts(tree, Summer.Site(), work, [Trees.Seen(Summer.Today) with { Bbch = 91, Hardened = true }]);

    private static TechniqueAdvice Answer(Tree tree, Func<DayWeather, DayWeather> weather, WorkRecord? work = null, Func<GardenFacts, GardenFacts>? garden = null)
    {
        var made = Trees.Garden(Summer);
        made = made with { Days = [.. made.Days.Select(weather)] };
        return Advisor.Advise(Trees.Craft, Facts(tree, work is null ? [] : [work]), garden?.Invoke(made) ?? made).Advice("watering");
    }
}
