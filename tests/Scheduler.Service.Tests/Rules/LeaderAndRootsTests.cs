using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Leader change, root work and the trim: what they bar in each other (domain brief, common practice).</summary>
public class LeaderAndRootsTests
{
    private static readonly LocalDate Spring = new(2025, 5, 10);
    private static readonly LocalDate Swelling = new(2025, 3, 10);

    [Fact]
    public void NamedRivals_AreCutAndTheLeaderRuns()
    {
        var made = Made("zelkova-serrata", 47, Spring, Goal.ChangeLeader).Noted(seen => seen with { LeafCount = 3 });
        made = made with
        {
            Tree = made.Tree with
            {
                Branches =
                [
                    new Branch { Id = "A", Role = BranchRole.Leader }, new Branch { Id = "B", Role = BranchRole.Rival },
                    new Branch { Id = "C", Role = BranchRole.LowBranch }
                ]
            }
        };
        var answer = made.Advice("leader-change");
        Assert.Equal(Verdict.DoNow, answer.Verdict);
        Assert.Equal((Verdict.Leave, "leader-must-run"), Of(answer, "A"));
        Assert.Equal((Verdict.DoNow, "leader-must-run"), Of(answer, "B"));
        Assert.Equal((Verdict.Leave, "leaves-are-fuel"), Of(answer, "C"));
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Rivals_AfterRootWork_WaitForHardenedLeaves(double latitude)
    {
        var made = Made("zelkova-serrata", latitude, Spring, Goal.ChangeLeader).Noted(seen => seen with { LeafCount = 3 });
        Assert.Equal(Verdict.DoNow, made.Advice("leader-change").Verdict);
        var repotted = made.Logged("repotting", 40, "normal").Advice("leader-change");
        Assert.Equal((Verdict.Wait, true), (repotted.Verdict, repotted.Opens!.Fields.ContainsKey("hardened")));
    }

    [Theory]
    [InlineData(TreeStage.TrunkBuilding, Goal.ThickenTrunk, Verdict.DoNow)]
    [InlineData(TreeStage.TrunkBuilding, Goal.Slender, Verdict.Leave)]
    [InlineData(TreeStage.Refinement, Goal.Slender, Verdict.NotAllowed)]
    [InlineData(TreeStage.Refinement, Goal.ChangeLeader, Verdict.DoNow)]
    public void Leader_IsChangedByStageAndGoal(TreeStage stage, Goal goal, Verdict verdict)
    {
        var made = Made("zelkova-serrata", 47, Spring, goal).Noted(seen => seen with { LeafCount = 3 });
        Assert.Equal(verdict, (made with { Tree = made.Tree with { Stage = stage } }).Advice("leader-change").Verdict);
    }

    [Fact]
    public void Pine_TakesALiveShootThatIsThere()
    {
        var made = Made("pinus-sylvestris", 47, Spring, Goal.ChangeLeader).Noted(seen => seen with { LeafCount = 3 });
        Assert.Contains(made.Advice("leader-change").Cautions, text => text.StartsWith("Only a live shoot", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("acer-palmatum", 3, Verdict.DoNow)]
    [InlineData("acer-palmatum", 7, Verdict.DoNow)]
    [InlineData("fagus-sylvatica", 1, Verdict.Wait)]
    [InlineData("fagus-sylvatica", 3, Verdict.DoNow)]
    [InlineData("zelkova-serrata", 7, Verdict.Missed)]
    [InlineData("juniperus-chinensis", 9, Verdict.DoNow)]
    [InlineData("pinus-sylvestris", 3, Verdict.DoNow)]
    [InlineData("rhododendron-indicum", 3, Verdict.DoNow)]
    public void Roots_HaveTheirWindowByGroup(string species, int bbch, Verdict verdict)
    {
        var made = Asked(species, 47, Swelling).Noted(seen => seen with { Bbch = bbch });
        Assert.Equal(verdict, made.Advice("repotting", "normal").Verdict);
        Assert.Equal(verdict, (made with { Latitude = -43, Seen = [] }).Noted(seen => seen with { Bbch = bbch }).Advice("repotting", "normal").Verdict);
    }

    [Fact]
    public void NeedleJuniper_IsRepottedWhileItsTipsMove()
    {
        var made = Asked("juniperus-chinensis", 47, Swelling);
        made = made with { Tree = made.Tree with { Group = "JNN" } };
        Assert.Equal(Verdict.DoNow, made.Noted(seen => seen with { TipsMoving = true }).Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.Wait, made.Noted(seen => seen with { TipsMoving = false }).Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.Missed, made.Noted(seen => seen with { TipsMoving = true, ShootCm = 1.5 }).Advice("repotting", "normal").Verdict);
    }

    [Fact]
    public void Azalea_HasASecondTimeAfterItsFlowersAreTaken()
    {
        var made = Asked("rhododendron-indicum", 47, new LocalDate(2025, 6, 1)).Noted(seen => seen with { Bbch = 10 }, 20);
        var waiting = made.Advice("repotting", "normal");
        Assert.Equal((Verdict.Wait, "flower-fruit-removal"), (waiting.Verdict, waiting.Opens!.Fields["after"]));
        Assert.Equal(Verdict.DoNow, made.Logged("flower-fruit-removal", 21, "flowers").Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.Missed, made.Logged("flower-fruit-removal", 22, "flowers").Advice("repotting", "normal").Verdict);
    }

    [Fact]
    public void Fig_IsRepottedWheneverNightsAreWarm()
    {
        var tropics = Asked("ficus", 2, new LocalDate(2025, 1, 5)) with { MeanC = 21, AmplitudeC = 1 };
        Assert.Equal(Verdict.DoNow, tropics.Advice("repotting", "normal").Verdict);
        Assert.NotEqual(Verdict.DoNow, Asked("ficus", 47, new LocalDate(2025, 1, 5)).Advice("repotting", "normal").Verdict);
    }

    [Theory]
    [InlineData(TreeStage.BranchBuilding, Health.Vigorous, null, Verdict.DoNow)]
    [InlineData(TreeStage.BranchBuilding, Health.Vigorous, "no", Verdict.NotAllowed)]
    [InlineData(TreeStage.BranchBuilding, Health.Sound, null, Verdict.NotAllowed)]
    [InlineData(TreeStage.Ramification, Health.Vigorous, null, Verdict.NotAllowed)]
    public void BigCutsAndRoots_ShareASpringOnVigorousYoungTreesOnly(TreeStage stage, Health health, string? setting, Verdict verdict)
    {
        var made = Asked("zelkova-serrata", 47, Swelling).Noted(seen => seen with { Bbch = 1 })
            .Logged("structural-pruning", 20, "live-wood", work => work with { LivingTopPercent = 25 });
        made = made with
        {
            Tree = made.Tree with { Stage = stage, Health = health, Settings = setting is null ? new Dictionary<string, string>() : new() { ["15"] = setting } }
        };
        Assert.Equal(verdict, made.Advice("repotting", "normal").Verdict);
    }

    [Fact]
    public void RottingRoots_AreTakenOffAFailingTreeAtAnyTime()
    {
        var made = Made("zelkova-serrata", 47, new LocalDate(2025, 7, 10), Goal.Slender);
        made = made with { Tree = made.Tree with { Health = Health.Failing, Requests = [new TechniqueRequest("repotting", "roots rot")] } };
        Assert.Equal(Verdict.DoNow, made.Advice("repotting", "light").Verdict);
        Assert.Equal(Verdict.NotAllowed, made.Advice("repotting", "normal").Verdict);
        made = made with { Tree = made.Tree with { Requests = [new TechniqueRequest("repotting")] } };
        Assert.Equal(Verdict.NotAllowed, made.Advice("repotting", "light").Verdict);
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Fig_InACoolSpellOfSummer_WaitsForWarmNights(double latitude)
    {
        var summer = Asked("ficus", latitude, new LocalDate(2025, 7, 15)) with { MeanC = 14, AmplitudeC = 10 };
        Made With(double minC) => summer with { Garden = garden => garden with { Days = [.. garden.Days.Select(day => new DayWeather(day.Date, minC, minC + 8, 0, 10, null, day.Kind))] } };
        Assert.Equal(Verdict.DoNow, With(18).Advice("repotting", "normal").Verdict);
        var cool = With(9).Advice("repotting");
        Assert.Equal((Verdict.Wait, "not-open-yet"), (cool.Verdict, cool.Reasons[0].Id));
        var autumn = (With(9) with { NorthernDay = new LocalDate(2025, 10, 20) }).Advice("repotting");
        Assert.Equal(Verdict.Missed, autumn.Verdict);
        Assert.Contains("warm nights of next year", autumn.Fallback!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void UnansweredNeed_IsAskedWhileOpenAndToldOnceMissed()
    {
        var made = Made("zelkova-serrata", 47, Swelling, Goal.Slender).Logged("repotting", 2 * 365, "normal");
        var open = made.Noted(seen => seen with { Bbch = 1 }).Advice("repotting", "normal");
        Assert.Equal(Verdict.Ask, open.Verdict);
        Assert.Contains("over 30 seconds", open.Reasons[0].Text, StringComparison.Ordinal);
        var closed = made.Noted(seen => seen with { Bbch = 7 }).Advice("repotting", "normal");
        Assert.Equal(Verdict.Missed, closed.Verdict);
        Assert.Contains(closed.Reasons, reason => reason.Id == "fact-missing" && reason.Text.Contains("over 30 seconds", StringComparison.Ordinal));
        Assert.Equal(("next-spring", true), (closed.Fallback!.When!.Fields["season"], closed.Fallback.Text.Contains("bud swell next year", StringComparison.Ordinal)));
    }

    [Fact]
    public void NoSignOfNeed_IsLeftAndBetweenTheLimitsAsked()
    {
        var made = Made("zelkova-serrata", 47, Swelling, Goal.Slender).Noted(seen => seen with { Bbch = 1 });
        Assert.Equal(Verdict.Leave, made.Logged("repotting", 370, "normal").Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.Ask, made.Logged("repotting", 2 * 365, "normal").Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.DoNow, made.Logged("repotting", 3 * 365, "normal").Advice("repotting", "normal").Verdict);
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Trim_StartsOnHardenedLeavesAndComesAgain(double latitude)
    {
        var made = Made("zelkova-serrata", latitude, new LocalDate(2025, 6, 20), Goal.Slender);
        Assert.Equal(Verdict.DoNow, made.Noted(seen => seen with { Hardened = true }).Advice("outline-trim", "routine-trim").Verdict);
        Assert.Equal(Verdict.Wait, made.Noted(seen => seen with { Hardened = false }).Advice("outline-trim", "routine-trim").Verdict);
        var again = made.Noted(seen => seen with { Hardened = true }).Logged("outline-trim", 5, "routine-trim");
        Assert.Equal(Verdict.Wait, again.Advice("outline-trim", "routine-trim").Verdict);
        var free = made.Noted(seen => seen with { Hardened = true });
        free = free with { Tree = free.Tree with { Settings = new Dictionary<string, string> { ["outline"] = "free" } } };
        Assert.Equal("owner-preference", free.Advice("outline-trim", "routine-trim").Reasons[0].Id);
        Assert.Contains(free.Advice("outline-trim", "free-extension").Reasons, reason => reason.Id == "owner-preference");
    }

    private static (Verdict, string) Of(TechniqueAdvice answer, string branch)
    {
        var part = answer.Parts.Single(part => part.Branch == branch);
        return (part.Verdict, part.Reasons[0].Id);
    }

    private static Made Made(string species, double latitude, LocalDate day, Goal goal) =>
        new(Trees.Tree(species, TreeStage.Ramification, goal), latitude, day);

    private static Made Asked(string species, double latitude, LocalDate day)
    {
        var made = Made(species, latitude, day, Goal.Slender);
        return made with { Tree = made.Tree with { Requests = [new TechniqueRequest("repotting")] } };
    }
}
