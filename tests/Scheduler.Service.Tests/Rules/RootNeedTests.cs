using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>What a look at standing water and lifting roots says to repotting (common practice, no source).</summary>
public class RootNeedTests
{
    private const int Year = 365;
    private static readonly LocalDate Swelling = new(2025, 3, 10);

    [Theory]
    [InlineData(1, true, Verdict.Leave)]
    [InlineData(1, false, Verdict.Leave)]
    [InlineData(2, true, Verdict.DoNow)]
    [InlineData(2, false, Verdict.Leave)]
    [InlineData(3, true, Verdict.DoNow)]
    [InlineData(3, false, Verdict.Leave)]
    public void Look_DecidesOnceTheIntervalIsOver(int seasons, bool waterStands, Verdict verdict)
    {
        var made = Elm(47).Logged("repotting", seasons * Year, "normal").Noted(seen => seen with { WaterStands = waterStands }, 5);
        Assert.Equal(verdict, made.Advice("repotting", "normal").Verdict);
        var south = Elm(-43).Logged("repotting", seasons * Year, "normal").Noted(seen => seen with { WaterStands = waterStands }, 5);
        Assert.Equal(verdict, south.Advice("repotting", "normal").Verdict);
    }

    [Fact]
    public void LiftingRoots_CountThoughWaterDrains() =>
        Assert.Equal(Verdict.DoNow, Elm(47).Noted(seen => seen with { WaterStands = false, RootsLift = true }, 5).Advice("repotting", "normal").Verdict);

    [Fact]
    public void OldLook_AnswersNoLonger()
    {
        var made = Elm(47).Logged("repotting", 2 * Year, "normal");
        Assert.Equal(Verdict.Leave, made.Noted(seen => seen with { WaterStands = false }, 299).Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.Ask, made.Noted(seen => seen with { WaterStands = false }, 301).Advice("repotting", "normal").Verdict);
    }

    [Fact]
    public void LookBeforeTheLastRootWork_SaysNothingOfTheNewSoil()
    {
        var made = Elm(47);
        made = (made with { Tree = made.Tree with { Stage = TreeStage.BranchBuilding } }).Logged("repotting", 200, "light");
        Assert.Equal(Verdict.Ask, made.Noted(seen => seen with { RootsLift = true }, 210).Advice("repotting", "normal").Verdict);
        Assert.Equal(Verdict.DoNow, made.Noted(seen => seen with { RootsLift = true }, 190).Advice("repotting", "normal").Verdict);
    }

    private static Made Elm(double latitude) =>
        new Made(Trees.Tree("zelkova-serrata", TreeStage.Ramification, Goal.Slender), latitude, Swelling).Noted(seen => seen with { Bbch = 1 });
}
