namespace Scheduler.Domain.Phenology;

/// <summary>
/// Length of a first flush against heat: share of its final length after so much heat since bud break (BBCH 07)
/// [C*d above base 5]. Nine tenths (BBCH 39) are reached with <see cref="ToNineTenthsCd"/>, half of it at
/// <see cref="HalfAt"/> times that heat.
/// </summary>
/// <remarks>
/// Logistic, s(x) = 1 / (1 + exp(-k (x - m))), x = heat / heat to nine tenths, m = <see cref="HalfAt"/>, k = ln 9 / (1 - m), so
/// that s(1) = 0.9. Of logistic, Gompertz and Weibull curves with one shared m it fits the species medians of potted
/// saplings best (Rouleau-Desrochers and Wolkovich, fuelinex, Vancouver 2025: birch, poplar, pine, box elder, choke
/// cherry; one year). Assumes one flush that ends by itself and no want of water.
/// </remarks>
public sealed record ShootCurve
{
    private const double NineTenths = 0.9;

    public ShootCurve(double toNineTenthsCd, double halfAt)
    {
        if (!(toNineTenthsCd > 0))
            throw new ArgumentOutOfRangeException(nameof(toNineTenthsCd), toNineTenthsCd, "A flush needs some heat.");
        if (!(halfAt is > 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(halfAt), halfAt, "Half the length lies between bud break and nine tenths.");
        (ToNineTenthsCd, HalfAt) = (toNineTenthsCd, halfAt);
    }

    public double ToNineTenthsCd { get; }
    public double HalfAt { get; }

    /// <summary>Share of the final length after so much heat since bud break.</summary>
    public double ShareAt(double heatCd) => heatCd <= 0 ? 0 : 1 / (1 + Math.Exp(-Steepness * (heatCd / ToNineTenthsCd - HalfAt)));

    /// <summary>Heat since bud break at which a share of the final length is reached; 0 for what is there at bud break.</summary>
    public double HeatCd(double share) => share is > 0 and < 1
        ? Math.Max(0, ToNineTenthsCd * (HalfAt + Math.Log(share / (1 - share)) / Steepness))
        : throw new ArgumentOutOfRangeException(nameof(share), share, "A share of the final length lies between 0 and 1.");

    private double Steepness => Math.Log(NineTenths / (1 - NineTenths)) / (1 - HalfAt);
}
