using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Safe seasons, barred seasons, shares and holds of structure cuts (domain brief, common practice and estimates).</summary>
public class StructuralPruningTests
{
    private static readonly LocalDate Midwinter = new(2025, 1, 5);
    private static readonly LocalDate Spring = new(2025, 4, 1);
    private static readonly LocalDate Summer = new(2025, 7, 1);
    private static readonly LocalDate Autumn = new(2025, 10, 1);

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Beech_IsCutInDormancyAndWaitsInLeaf(double latitude)
    {
        Assert.Equal(Verdict.DoNow, On("fagus-sylvatica", latitude, Midwinter).Verdict);
        var inLeaf = On("fagus-sylvatica", latitude, Summer);
        Assert.Equal((Verdict.Wait, "not-open-yet"), (inLeaf.Verdict, inLeaf.Reasons[0].Id));
        Assert.Equal(97, inLeaf.Opens!.Fields["bbch"]);
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Maple_IsNotCutWhileSapRises(double latitude)
    {
        Assert.Equal(Verdict.DoNow, On("acer-palmatum", latitude, new LocalDate(2024, 12, 20)).Verdict);
        var rising = On("acer-palmatum", latitude, Spring);
        Assert.Equal(Verdict.Wait, rising.Verdict);
        Assert.Contains(rising.Reasons, reason => reason.Id == "sap-bleeding");
        Assert.Equal(true, rising.Opens!.Fields["hardened"]);
        var hardened = Made("acer-palmatum", latitude, new LocalDate(2025, 6, 10)).Noted(seen => seen with { Hardened = true });
        Assert.Equal(Verdict.DoNow, hardened.Advice("structural-pruning", "live-wood").Verdict);
    }

    [Theory]
    [InlineData("prunus-mume", 47, Goal.Slender)]
    [InlineData("prunus-mume", -43, Goal.Flowers)]
    [InlineData("prunus-cherry", 47, Goal.Flowers)]
    [InlineData("prunus-cherry", -43, Goal.Slender)]
    public void StoneFruit_IsNeverCutInWetDormancy(string species, double latitude, Goal goal)
    {
        for (var day = new LocalDate(2024, 12, 1); day < new LocalDate(2025, 2, 1); day = day.PlusDays(10))
        {
            var answer = On(species, latitude, day, goal);
            Assert.Equal((Verdict.NotAllowed, "wound-infection"), (answer.Verdict, answer.Reasons[0].Id));
            Assert.Equal(69, answer.BarredUntil!.Fields["bbch"]);
        }
        var windows = Made(species, latitude, Midwinter, goal).Windows().Windows.Where(window => window.Key is { Technique: "structural-pruning", Mode: "live-wood" });
        Assert.All(windows, window => Assert.True(window.Opens.Likely > Shift(new LocalDate(window.Key.Year, 3, 1), latitude)));
    }

    [Fact]
    public void StoneFruit_IsCutAfterBloomOnDryDaysOnly()
    {
        var afterBloom = Made("prunus-cherry", 47, new LocalDate(2025, 5, 20)).Noted(seen => seen with { Bbch = 69 }, 3);
        Assert.Equal(Verdict.DoNow, afterBloom.Advice("structural-pruning", "live-wood").Verdict);
        var wet = (afterBloom with { Garden = Rain }).Advice("structural-pruning", "live-wood");
        Assert.Equal((Verdict.Wait, "rain-on-cuts"), (wet.Verdict, wet.Hold));
        // Dead wood of stone fruit waits for dry days too.
        var dead = (afterBloom with { Garden = Rain }).Noted(seen => seen with { DeadTwigs = true }).Advice("structural-pruning", "dead-wood");
        Assert.Equal((Verdict.Wait, "rain-on-cuts"), (dead.Verdict, dead.Hold));
    }

    [Fact]
    public void Rain_HoldsBigCutsOnlyWhereWoundsHealDry()
    {
        var young = Made("fagus-sylvatica", 47, Midwinter);
        young = young with { Tree = young.Tree with { Stage = TreeStage.BranchBuilding, Goals = [Goal.ThickenBranch] }, Garden = Rain };
        var answer = young.Advice("structural-pruning");
        Assert.Equal(Verdict.DoNow, answer.Parts.Single(part => part.Mode == "live-wood").Verdict);
        Assert.Contains(answer.Cautions, caution => caution.StartsWith("Cuts over one centimeter wait until", StringComparison.Ordinal));
        Assert.DoesNotContain((young with { Garden = garden => garden }).Advice("structural-pruning").Cautions, caution => caution.Contains("wait until", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Lilac_WithFlowersAsGoal_IsNeverTidiedInAutumn(double latitude)
    {
        foreach (var day in new[] { Autumn, Midwinter })
        {
            var answer = On("syringa-vulgaris", latitude, day, Goal.Flowers);
            Assert.Equal((Verdict.NotAllowed, "would-cost-bloom"), (answer.Verdict, answer.Reasons[0].Id));
            Assert.Equal(69, answer.BarredUntil!.Fields["bbch"]);
            Assert.Equal(Verdict.Wait, On("syringa-vulgaris", latitude, day, Goal.Slender).Verdict);
        }
    }

    [Fact]
    public void Fig_InTheTropics_IsCutAllYear()
    {
        foreach (var day in new[] { Midwinter, Spring, Summer, Autumn })
        {
            var made = Made("ficus", 2, day) with { MeanC = 21, AmplitudeC = 1 };
            Assert.Equal(Verdict.DoNow, made.Advice("structural-pruning", "live-wood").Verdict);
        }
        Assert.Equal(Verdict.Wait, On("ficus", 47, Midwinter).Verdict);
    }

    [Fact]
    public void Maple_InTheTropics_HasNoDormancyToBeCutIn()
    {
        var made = Made("acer-palmatum", 2, Midwinter) with { MeanC = 21, AmplitudeC = 1 };
        Assert.NotEqual(Verdict.DoNow, made.Advice("structural-pruning", "live-wood").Verdict);
    }

    [Theory]
    [InlineData(TreeStage.TrunkBuilding, "fagus-sylvatica", 33)]
    [InlineData(TreeStage.BranchBuilding, "fagus-sylvatica", 30)]
    [InlineData(TreeStage.Ramification, "fagus-sylvatica", 15)]
    [InlineData(TreeStage.Refinement, "fagus-sylvatica", 10)]
    [InlineData(TreeStage.TrunkBuilding, "pinus-sylvestris", 25)]
    [InlineData(TreeStage.BranchBuilding, "larix", 25)]
    public void Share_FollowsTheStage(TreeStage stage, string species, int percent)
    {
        var made = Made(species, 47, Midwinter);
        var answer = (made with { Tree = made.Tree with { Stage = stage } }).Advice("structural-pruning", "live-wood");
        Assert.Equal(percent, Convert.ToInt32(answer.Amount[0]["treePercentMax"], System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Share_UsedUpBranchByBranch_BarsMoreUntilNextSeason()
    {
        var made = Made("fagus-sylvatica", 47, Midwinter).Logged("structural-pruning", 5, "live-wood", work => work with { Branch = "B1", LivingTopPercent = 14 });
        Assert.Equal(Verdict.DoNow, made.Advice("structural-pruning", "live-wood").Verdict);
        var used = made.Logged("structural-pruning", 3, "live-wood", work => work with { Branch = "B2", LivingTopPercent = 20 }).Advice("structural-pruning", "live-wood");
        Assert.Equal((Verdict.NotAllowed, "too-soon-since-heavy-work"), (used.Verdict, used.Reasons[0].Id));
        Assert.Equal("next-season", used.BarredUntil!.Fields["season"]);
    }

    [Fact]
    public void OneMainSession_IsDone_AlsoWhenItWasBeforeTheYearTurned()
    {
        var made = Made("fagus-sylvatica", 47, Midwinter);
        Assert.Equal("done-this-window", made.Logged("structural-pruning", 10).Advice("structural-pruning", "live-wood").Reasons[0].Id);
        Assert.Equal("done-this-window", made.Logged("structural-pruning", 45).Advice("structural-pruning", "live-wood").Reasons[0].Id);
        Assert.Equal(Verdict.DoNow, made.Logged("structural-pruning", 360).Advice("structural-pruning", "live-wood").Verdict);
    }

    [Theory]
    [InlineData(Health.Failing)]
    [InlineData(Health.Weak)]
    [InlineData(Health.Sound)]
    public void DeadWood_ComesOffInEveryHealth(Health health)
    {
        var made = Made("fagus-sylvatica", 47, Summer);
        made = made with { Tree = made.Tree with { Health = health } };
        Assert.Equal(Verdict.Leave, made.Advice("structural-pruning", "dead-wood").Verdict);
        var seen = made.Noted(one => one with { DeadTwigs = true }, 2);
        Assert.Equal(Verdict.DoNow, seen.Advice("structural-pruning", "dead-wood").Verdict);
        Assert.NotEqual(Verdict.DoNow, seen.Advice("structural-pruning", "live-wood").Verdict);
        Assert.Equal(Verdict.Leave, seen.Logged("structural-pruning", 1, "dead-wood").Advice("structural-pruning", "dead-wood").Verdict);
    }

    [Fact]
    public void FrozenWood_HoldsUntilItThaws()
    {
        var made = Made("fagus-sylvatica", 47, Midwinter) with { Garden = garden => garden with { WoodFrozen = true } };
        var frozen = made.Advice("structural-pruning", "live-wood");
        Assert.Equal((Verdict.Wait, "frozen-wood"), (frozen.Verdict, frozen.Hold));
        // Minus eleven within three nights is too cold for fresh cuts, minus nine is not.
        Assert.Equal("frozen-wood", (made with { Garden = garden => Cold(garden, -11) }).Advice("structural-pruning", "live-wood").Hold);
        Assert.Equal(Verdict.DoNow, (made with { Garden = garden => Cold(garden, -9) }).Advice("structural-pruning", "live-wood").Verdict);
    }

    private static PartAdvice On(string species, double latitude, LocalDate day, Goal goal = Goal.Slender) =>
        Made(species, latitude, day, goal).Advice("structural-pruning", "live-wood");

    private static Made Made(string species, double latitude, LocalDate day, Goal goal = Goal.Slender) =>
        new(Trees.Tree(species, TreeStage.Ramification, goal), latitude, day);

    private static LocalDate Shift(LocalDate northern, double latitude) => latitude < 0 ? northern.PlusDays(181) : northern;

    private static GardenFacts Rain(GardenFacts garden) => garden with { Days = [.. garden.Days.Select(day => new DayWeather(day.Date, day.MinC, day.MaxC, 4, 10, null, day.Kind))] };

    private static GardenFacts Cold(GardenFacts garden, double minC) => garden with
    {
        BenchOffsetC = 0,
        Days = [.. garden.Days.Select(day => new DayWeather(day.Date, day.Date == garden.Today.PlusDays(2) ? minC : -5, 1, 0, 10, null, day.Kind))]
    };
}
