using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class LeafTrackTests
{
    private static readonly LocalDate Start = new(2020, 4, 20);

    [Theory]
    [InlineData(0, false, null)]
    [InlineData(1, false, 11)]
    [InlineData(4, false, 14)]
    [InlineData(9, false, 19)]
    [InlineData(10, false, null)]
    [InlineData(2, true, 11)]
    [InlineData(6, true, 13)]
    [InlineData(18, true, 19)]
    public void CodeOf_CountsLeavesOrPairs(int leaves, bool opposite, int? code) => Assert.Equal(code, LeafTrack.CodeOf(leaves, opposite));

    // Ten degree-days a day. Cherry 28 a leaf; 5 leaves in 20 days are 40 a leaf. By hand: v = 2 (0.5/5)^2 + 0.12^2 = 0.0344,
    // t^2 = 0.1225; ln(40/28) = 0.35667 * 0.1225 / (0.1225 + 0.0344) = 0.27847; 28 * e^0.27847 = 36.99.
    [Fact]
    public void OwnStep_TwoCounts_AreDrawnToTheCatalog() => Assert.Equal(36.99, Step(Plants.Cherry, (0, 3), (20, 8))!.Value, 2);

    // Pairs: 4 leaves are two pairs, 10 are five; three pairs in 18 days of 10 are 60 against the catalog's 50.
    [Fact]
    public void OwnStep_Opposite_CountsPairs() => Assert.InRange(Step(Plants.Maple, (0, 4), (18, 10))!.Value, 55, 60);

    [Fact]
    public void OwnStep_MoreLeavesInBetween_CountForMore() =>
        Assert.True(Step(Plants.Cherry, (0, 1), (4, 2)) < Step(Plants.Cherry, (0, 1), (32, 9)));

    [Fact]
    public void OwnStep_AfterACut_OnlyTheRiseBeforeCounts() =>
        Assert.Equal(Step(Plants.Cherry, (0, 3), (20, 8)), Step(Plants.Cherry, (0, 3), (20, 8), (25, 2), (60, 12)));

    [Fact]
    public void OwnStep_StoppedShoot_SaysNothing() => Assert.Null(Step(Plants.Cherry, (0, 3), (60, 5)));

    [Fact]
    public void OwnStep_OneCountPerShoot_SaysNothing() => Assert.Null(LeafTrack.OwnStepCd(
        Plants.Scale(Plants.Cherry), [new LeafCount("a", Start, 3), new LeafCount("b", Start.PlusDays(20), 8)], Heat));

    [Fact]
    public void Scale_WithOwnStep_MovesLaterLeavesOnly()
    {
        GrowthScale catalog = Plants.Scale(Plants.Cherry), own = new(Plants.Cherry, Plants.Rules, 40);

        Assert.Equal((3 * 28.0, 3 * 40.0), (catalog.AfterFirstLeafCd(14), own.AfterFirstLeafCd(14)));
        Assert.Equal((catalog.FromHeatStartCd(11), catalog.AfterFirstLeafCd(91)), (own.FromHeatStartCd(11), own.AfterFirstLeafCd(91)));
    }

    private static double? Step(Species species, params (int Day, int Leaves)[] counts) => LeafTrack.OwnStepCd(
        Plants.Scale(species), counts.Select(count => new LeafCount("top", Start.PlusDays(count.Day), count.Leaves)), Heat);

    private static double Heat(LocalDate date) => 10 * Period.DaysBetween(Start, date);
}
