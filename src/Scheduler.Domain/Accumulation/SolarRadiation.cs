using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Accumulation;

/// <summary>Radiation of a day, in MJ m⁻² day⁻¹, as FAO-56 works it out.</summary>
/// <remarks>Allen et al., Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998, chapter 3.</remarks>
public static class SolarRadiation
{
    /// <summary>kRs for places away from the coast, equation 50.</summary>
    public const double Inland = 0.16;

    /// <summary>kRs for places on the coast, equation 50.</summary>
    public const double Coast = 0.19;

    private const double SolarConstant = 0.0820; // MJ m⁻² min⁻¹
    private const double StefanBoltzmann = 4.903e-9; // MJ K⁻⁴ m⁻² day⁻¹
    private const double GrassAlbedo = 0.23;
    private const double KelvinOffset = 273.16;

    /// <summary>dr = 1 + 0.033·cos(2πJ/365), equation 23.</summary>
    public static double InverseDistance(int dayOfYear) => 1 + 0.033 * Math.Cos(2 * Math.PI / 365 * dayOfYear);

    /// <summary>Ra = 24·60/π·Gsc·dr·(ωs·sin φ·sin δ + cos φ·cos δ·sin ωs), equation 21: the sun above the air.</summary>
    public static double Extraterrestrial(double latitude, int dayOfYear)
    {
        var phi = double.DegreesToRadians(latitude);
        var delta = DayLength.SolarDeclination(dayOfYear);
        var omega = DayLength.SunsetHourAngle(latitude, delta);
        return 24 * 60 / Math.PI * SolarConstant * InverseDistance(dayOfYear)
            * (omega * Math.Sin(phi) * Math.Sin(delta) + Math.Cos(phi) * Math.Cos(delta) * Math.Sin(omega));
    }

    /// <summary>Rs = (0.25 + 0.50·n/N)·Ra, equation 35, from the hours of sunshine n of N possible.</summary>
    public static double FromSunshine(double sunshineHours, double dayLengthHours, double extraterrestrial) =>
        (0.25 + 0.50 * sunshineHours / dayLengthHours) * extraterrestrial;

    /// <summary>Rs = kRs·√(Tmax − Tmin)·Ra, equation 50: clear days have a wide range of temperature.</summary>
    public static double FromTemperatureRange(double minC, double maxC, double extraterrestrial, double kRs = Inland) =>
        kRs * Math.Sqrt(maxC - minC) * extraterrestrial;

    /// <summary>Rso = (0.75 + 2·10⁻⁵·z)·Ra, equation 37: what a cloudless sky lets through.</summary>
    public static double ClearSky(double elevationM, double extraterrestrial) => (0.75 + 2e-5 * elevationM) * extraterrestrial;

    /// <summary>Rns = (1 − 0.23)·Rs, equation 38: what grass keeps of it.</summary>
    public static double NetShortwave(double solar) => (1 - GrassAlbedo) * solar;

    /// <summary>
    /// Rnl = σ·(Tmax⁴ + Tmin⁴)/2·(0.34 − 0.14·√ea)·(1.35·Rs/Rso − 0.35), equation 39, T in K: what is lost to the sky. Rs/Rso counts as at
    /// most 1.
    /// </summary>
    public static double NetLongwave(double minC, double maxC, double actualVaporKPa, double solar, double clearSky)
    {
        var emitted = StefanBoltzmann * (Math.Pow(maxC + KelvinOffset, 4) + Math.Pow(minC + KelvinOffset, 4)) / 2;
        return emitted * (0.34 - 0.14 * Math.Sqrt(actualVaporKPa)) * (1.35 * Math.Min(1, solar / clearSky) - 0.35);
    }
}
