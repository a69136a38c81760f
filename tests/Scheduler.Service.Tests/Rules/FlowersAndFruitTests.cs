using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Flowers and fruit off: for the bloom to come, or as relief (domain brief, common practice).</summary>
public class FlowersAndFruitTests
{
    private static readonly LocalDate Bloom = new(2025, 5, 5);

    [Theory]
    [InlineData("rhododendron-indicum", 65, 35d, Verdict.DoNow)]
    [InlineData("rhododendron-indicum", 65, 10d, Verdict.Wait)]
    [InlineData("chaenomeles", 65, null, Verdict.DoNow)]
    [InlineData("syringa-vulgaris", 65, null, Verdict.Wait)]
    [InlineData("syringa-vulgaris", 69, null, Verdict.DoNow)]
    public void Flowers_ComeOffByGroup(string species, int bbch, double? past, Verdict verdict)
    {
        foreach (var latitude in new[] { 47d, -43 })
        {
            var made = Made(species, latitude).Noted(seen => seen with { Bbch = bbch, FlowersPastPercent = past });
            Assert.Equal(verdict, made.Advice("flower-fruit-removal", "flowers").Verdict);
        }
    }

    [Theory]
    [InlineData(Health.Failing)]
    [InlineData(Health.Weak)]
    public void WeakTree_LosesAllFlowersAtAnyPhase(Health health)
    {
        var made = Made("malus", 47).Noted(seen => seen with { Bbch = 55 });
        made = made with { Tree = made.Tree with { Health = health } };
        AssertAllOff(made);
    }

    [Fact]
    public void RepottedTree_LosesAllFlowersAtAnyPhase() =>
        AssertAllOff(Made("malus", 47).Noted(seen => seen with { Bbch = 55 }).Logged("repotting", 40, "normal"));

    [Fact]
    public void SoundTreeWithoutTheGoal_KeepsItsFlowers()
    {
        var made = Made("malus", 47, Goal.Slender).Noted(seen => seen with { Bbch = 69 });
        Assert.Equal(Verdict.Leave, made.Advice("flower-fruit-removal", "flowers").Verdict);
        var young = made with { Tree = made.Tree with { Stage = TreeStage.BranchBuilding } };
        Assert.Equal(Verdict.DoNow, young.Advice("flower-fruit-removal", "flowers").Verdict);
    }

    [Theory]
    [InlineData(Health.Vigorous, "fruitKeptMax")]
    [InlineData(Health.Sound, "takePercent")]
    [InlineData(Health.Weak, "take")]
    public void Fruit_IsThinnedByHealth(Health health, string fact)
    {
        var made = Made("malus", 47) with { NorthernDay = new LocalDate(2025, 6, 20) };
        made = made.Noted(seen => seen with { FruitSet = true, Bbch = 71 });
        var answer = (made with { Tree = made.Tree with { Health = health } }).Advice("flower-fruit-removal", "fruit");
        Assert.Equal((Verdict.DoNow, true), (answer.Verdict, answer.Amount[0].ContainsKey(fact)));
        Assert.Equal(Verdict.Leave, (made with { Seen = [] }).Advice("flower-fruit-removal", "fruit").Verdict);
    }

    [Fact]
    public void Weather_NeverHoldsIt()
    {
        var made = Made("syringa-vulgaris", 47).Noted(seen => seen with { Bbch = 69 }) with
        {
            Garden = garden => garden with { SoilDry = true, WaterAssured = false, Days = [.. garden.Days.Select(day => new DayWeather(day.Date, day.MinC, day.MaxC, 30, 90, null, day.Kind))] }
        };
        Assert.Equal(Verdict.DoNow, made.Advice("flower-fruit-removal", "flowers").Verdict);
    }

    private static void AssertAllOff(Made made)
    {
        var answer = made.Advice("flower-fruit-removal", "flowers");
        Assert.Equal((Verdict.DoNow, "relieves-tree"), (answer.Verdict, answer.Reasons[0].Id));
        Assert.Equal("all-flowers-and-fruit", answer.Amount[0]["take"]);
    }

    private static Made Made(string species, double latitude, Goal goal = Goal.Flowers) =>
        new(Trees.Tree(species, TreeStage.Ramification, goal), latitude, Bloom);
}
