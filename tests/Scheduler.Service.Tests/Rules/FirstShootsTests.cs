using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>A pinch goes shoot by shoot, so it opens with the first shoot that is there (common practice, no source).</summary>
public class FirstShootsTests
{
    private static readonly LocalDate Day = new(2025, 4, 20);

    [Theory]
    [InlineData(47, 10, Verdict.DoNow)]
    [InlineData(-43, 10, Verdict.DoNow)]
    [InlineData(47, 9, Verdict.Wait)]
    public void Pinch_OpensWithTheFirstShoots(double latitude, int some, Verdict verdict) =>
        Assert.Equal(verdict, Maple(latitude).Noted(seen => seen with { Bbch = 7, SomeAtBbch = some }).Advice("tip-pinch").Verdict);

    [Fact]
    public void FewerThanHalf_AreFirstShootsToo() =>
        Assert.Equal(Verdict.DoNow, Maple(47).Noted(seen => seen with { Bbch = 10, ShareOfShootsPercent = 20 }).Advice("tip-pinch").Verdict);

    [Fact]
    public void WeakShoots_OpenNothing() =>
        Assert.Equal(Verdict.Wait, Maple(47).Noted(seen => seen with { Bbch = 7, SomeAtBbch = 10, Strength = "weak" }).Noted(seen => seen with { Bbch = 7 }).Advice("tip-pinch").Verdict);

    [Fact]
    public void FirstShootsOfTheTop_OpenOnlyTheTop()
    {
        var parts = Maple(47).Noted(seen => seen with { CrownZone = CrownZone.Top, Bbch = 7, SomeAtBbch = 10 })
            .Noted(seen => seen with { CrownZone = CrownZone.Middle, Bbch = 7 }).Advice("tip-pinch").Parts;
        Assert.Equal(Verdict.DoNow, parts.Single(part => part.CrownZone == CrownZone.Top).Verdict);
        var middle = parts.Single(part => part.CrownZone == CrownZone.Middle);
        Assert.Equal((Verdict.Wait, 10), (middle.Verdict, middle.Opens!.Fields["bbch"]));
        Assert.DoesNotContain("firstShoots", middle.Opens.Fields.Keys);
    }

    [Fact]
    public void FlowersOnSomeShoots_AreNotLeaves() =>
        Assert.Equal(Verdict.Wait, Maple(47).Noted(seen => seen with { Bbch = 7, SomeAtBbch = 61 }).Advice("tip-pinch").Verdict);

    private static Made Maple(double latitude) => new(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender), latitude, Day);
}
