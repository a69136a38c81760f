using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class ShootCurveTests
{
    private static readonly ShootCurve Curve = new(300, 0.6);

    // By hand: k = ln 9 / 0.4; half at 0.6 * 300; a tenth as far below the half as nine tenths above: 0.2 * 300.
    [Theory]
    [InlineData(60, 0.1)]
    [InlineData(180, 0.5)]
    [InlineData(300, 0.9)]
    public void ShareAt_AndHeat_AreInverse(double heatCd, double share)
    {
        Assert.Equal(share, Curve.ShareAt(heatCd), 9);
        Assert.Equal(heatCd, Curve.HeatCd(share), 9);
    }

    [Fact]
    public void ShareAt_BudBreak_IsNothing() => Assert.Equal((0.0, 0.0), (Curve.ShareAt(0), Curve.HeatCd(0.001)));

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(double.NaN, 0.5)]
    [InlineData(300, 0)]
    [InlineData(300, 1)]
    public void Curve_WithoutExtent_IsRefused(double toNineTenthsCd, double halfAt) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new ShootCurve(toNineTenthsCd, halfAt));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void HeatCd_WholeLength_IsNeverReached(double share) => Assert.Throws<ArgumentOutOfRangeException>(() => Curve.HeatCd(share));
}
