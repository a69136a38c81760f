using System.Runtime.CompilerServices;

namespace Scheduler.Domain.Accumulation;

/// <summary>acos(x) in radians for x from 0 to 1, where many years of days need it and a call into the C library costs too much.</summary>
/// <remarks>
/// acos(x) = √(1 − x)·P(x), the form of Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.46 (from memory). P is ours: of
/// degree 11, through acos(x)/√(1 − x) at the 12 Chebyshev points of [0, 1]. It is off by at most 1.4·10⁻¹¹.
/// </remarks>
internal static class ArcCosine
{
    private static ReadOnlySpan<double> P =>
    [
        1.5707963267809932,
        -0.2146018325869006,
        0.08904842827012649,
        -0.05078908593126578,
        0.03364374413652034,
        -0.024146762842740088,
        0.017772668815590954,
        -0.012442683330239863,
        0.007475147792320057,
        -0.0034040781774820057,
        0.0010003529993506768,
        -0.00013866356069532532,
    ];

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Of(double x)
    {
        // Written out, so that the loop over the days holds no second loop.
        var p = Math.FusedMultiplyAdd(x, P[11], P[10]);
        p = Math.FusedMultiplyAdd(x, p, P[9]);
        p = Math.FusedMultiplyAdd(x, p, P[8]);
        p = Math.FusedMultiplyAdd(x, p, P[7]);
        p = Math.FusedMultiplyAdd(x, p, P[6]);
        p = Math.FusedMultiplyAdd(x, p, P[5]);
        p = Math.FusedMultiplyAdd(x, p, P[4]);
        p = Math.FusedMultiplyAdd(x, p, P[3]);
        p = Math.FusedMultiplyAdd(x, p, P[2]);
        p = Math.FusedMultiplyAdd(x, p, P[1]);
        p = Math.FusedMultiplyAdd(x, p, P[0]);
        return Math.Sqrt(1 - x) * p;
    }
}
