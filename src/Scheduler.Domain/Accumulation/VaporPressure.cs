namespace Scheduler.Domain.Accumulation;

/// <summary>Pressure of the air and of the water vapor in it, in kPa, as FAO-56 works them out.</summary>
/// <remarks>Allen et al., Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998, chapter 3.</remarks>
public static class VaporPressure
{
    /// <summary>P = 101.3·((293 − 0.0065z)/293)^5.26, equation 7: a mean for the height z, not the weather of the day.</summary>
    public static double AirPressure(double elevationM) => 101.3 * Math.Pow((293 - 0.0065 * elevationM) / 293, 5.26);

    /// <summary>γ = 0.000665·P, equation 8, in kPa/°C.</summary>
    public static double PsychrometricConstant(double airPressureKPa) => 0.000665 * airPressureKPa;

    /// <summary>e°(T) = 0.6108·exp(17.27T/(T + 237.3)), equation 11.</summary>
    public static double Saturation(double temperatureC) => 0.6108 * Math.Exp(17.27 * temperatureC / (temperatureC + 237.3));

    /// <summary>es = (e°(Tmax) + e°(Tmin))/2, equation 12.</summary>
    public static double MeanSaturation(double minC, double maxC) => (Saturation(minC) + Saturation(maxC)) / 2;

    /// <summary>Δ = 4098·e°(T)/(T + 237.3)², equation 13, in kPa/°C.</summary>
    public static double SaturationSlope(double temperatureC) =>
        4098 * Saturation(temperatureC) / Math.Pow(temperatureC + 237.3, 2);

    /// <summary>ea = e°(Twet) − 0.000662·P·(Tdry − Twet), equations 15 and 16, for a ventilated psychrometer.</summary>
    public static double ActualFromPsychrometer(double dryC, double wetC, double airPressureKPa) =>
        Saturation(wetC) - 0.000662 * airPressureKPa * (dryC - wetC);

    /// <summary>ea = (e°(Tmin)·RHmax + e°(Tmax)·RHmin)/200, equation 17.</summary>
    public static double ActualFromHumidities(double saturationAtMinKPa, double saturationAtMaxKPa, double maxPercent, double minPercent) =>
        (saturationAtMinKPa * maxPercent + saturationAtMaxKPa * minPercent) / 200;

    /// <summary>ea = e°(Tmin)·RHmax/100, equation 18, where the lower humidity is not trusted.</summary>
    public static double ActualFromHighestHumidity(double saturationAtMinKPa, double maxPercent) =>
        saturationAtMinKPa * maxPercent / 100;

    /// <summary>ea = RHmean/100·(e°(Tmax) + e°(Tmin))/2, equation 19, the coarsest of the three.</summary>
    public static double ActualFromMeanHumidity(double saturationAtMinKPa, double saturationAtMaxKPa, double meanPercent) =>
        meanPercent / 100 * (saturationAtMinKPa + saturationAtMaxKPa) / 2;

    /// <summary>ea = e°(Tmin), equation 48: assumes dew forms at dawn, so it is too high in dry country.</summary>
    public static double ActualFromMinimum(double minC) => Saturation(minC);
}
