namespace Scheduler.Domain.Accumulation;

/// <summary>
/// ET0, the water a well-watered short grass would lose in a day, in mm. A pot is not a lawn: its loss needs a canopy factor and the
/// pot's area on top, and such factors are estimates.
/// </summary>
/// <remarks>Allen et al., Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998.</remarks>
public static class ReferenceEvapotranspiration
{
    private const double WaterPerMegajoule = 0.408; // mm per MJ m⁻²

    /// <summary>
    /// ET0 = (0.408·Δ·(Rn − G) + γ·900/(T + 273)·u2·(es − ea))/(Δ + γ·(1 + 0.34·u2)), equation 6. Radiation in MJ m⁻² day⁻¹, wind at 2 m in
    /// m/s, pressures in kPa.
    /// </summary>
    public static double PenmanMonteith(
        double netRadiation,
        double soilHeat,
        double meanC,
        double windAt2M,
        double saturationKPa,
        double actualKPa,
        double slope,
        double psychrometric)
    {
        var driven = WaterPerMegajoule * slope * (netRadiation - soilHeat);
        var blown = psychrometric * 900 / (meanC + 273) * windAt2M * (saturationKPa - actualKPa);
        return (driven + blown) / (slope + psychrometric * (1 + 0.34 * windAt2M));
    }

    /// <summary>ET0 = 0.0023·(Tmean + 17.8)·√(Tmax − Tmin)·0.408·Ra, equation 52, when only temperatures are known; never below 0.</summary>
    public static double Hargreaves(double minC, double maxC, double extraterrestrial) =>
        Math.Max(0, 0.0023 * ((minC + maxC) / 2 + 17.8) * Math.Sqrt(maxC - minC) * WaterPerMegajoule * extraterrestrial);

    /// <summary>G = 0.07·(Tnext − Tprevious), equation 43, for a month between two others; for a single day G is taken as 0.</summary>
    public static double MonthlySoilHeat(double previousMonthC, double nextMonthC) => 0.07 * (nextMonthC - previousMonthC);

    /// <summary>u2 = uz·4.87/ln(67.8·z − 5.42), equation 47: wind measured z m above the ground brought to 2 m.</summary>
    public static double WindAt2M(double wind, double measuredAtM) => wind * 4.87 / Math.Log(67.8 * measuredAtM - 5.42);
}
