namespace Scheduler.Domain.Weather;

/// <summary>Hours from sunrise to sunset on a flat horizon, from latitude and day of the year (1 January is 1).</summary>
/// <remarks>
/// Assumes the same year every year: leap days shift the result by at most a few minutes at middle latitudes.
/// Latitude is in degrees, south negative. Polar day gives 24, polar night 0.
/// </remarks>
public static class DayLength
{
    /// <summary>The center of the sun is on the horizon.</summary>
    public const double SunCenterDegrees = 0;

    /// <summary>The top of the sun is on the horizon, without refraction (from memory).</summary>
    public const double SunTopDegrees = 0.26667;

    /// <summary>The top of the sun seems to be on the horizon, with refraction: the sunrise of almanacs.</summary>
    public const double AlmanacDegrees = 0.8333;

    /// <summary>
    /// The CBM model: θ = 0.2163108 + 2·atan(0.9671396·tan(0.00860·(J − 186))), φ = asin(0.39795·cos θ),
    /// D = 24 − 24/π·acos((sin p + sin L·sin φ)/(cos L·cos φ)), where p is how far the sun is below the horizon, in degrees,
    /// when the day begins and ends.
    /// </summary>
    /// <remarks>Forsythe et al., A model comparison for daylength, Ecological Modelling 80:87-95, 1995.</remarks>
    public static double ForsytheHours(double latitude, int dayOfYear, double sunBelowHorizonDegrees = AlmanacDegrees)
    {
        var theta = 0.2163108 + 2 * Math.Atan(0.9671396 * Math.Tan(0.00860 * (Checked(dayOfYear) - 186)));
        var phi = Math.Asin(0.39795 * Math.Cos(theta));
        var l = Radians(latitude);
        var p = double.DegreesToRadians(sunBelowHorizonDegrees);
        var bracket = (Math.Sin(p) + Math.Sin(l) * Math.Sin(phi)) / (Math.Cos(l) * Math.Cos(phi));
        return 24 - 24 / Math.PI * Math.Acos(Math.Clamp(bracket, -1, 1));
    }

    /// <summary>FAO-56 equations 24, 25 and 34: δ = 0.409·sin(2πJ/365 − 1.39), ωs = acos(−tan φ·tan δ), N = 24·ωs/π.</summary>
    /// <remarks>Allen et al., Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998.</remarks>
    public static double FaoHours(double latitude, int dayOfYear) =>
        24 / Math.PI * SunsetHourAngle(latitude, SolarDeclination(dayOfYear));

    /// <summary>δ of FAO-56 equation 24, in radians.</summary>
    public static double SolarDeclination(int dayOfYear) =>
        0.409 * Math.Sin(2 * Math.PI / 365 * Checked(dayOfYear) - 1.39);

    /// <summary>ωs of FAO-56 equation 25, in radians, from the latitude in degrees and the declination in radians.</summary>
    public static double SunsetHourAngle(double latitude, double declination) =>
        Math.Acos(Math.Clamp(-Math.Tan(Radians(latitude)) * Math.Tan(declination), -1, 1));

    private static int Checked(int dayOfYear)
    {
        if (dayOfYear is < 1 or > 366)
            throw new ArgumentOutOfRangeException(nameof(dayOfYear), dayOfYear, "The day of the year must lie between 1 and 366.");
        return dayOfYear;
    }

    private static double Radians(double latitude)
    {
        if (!(Math.Abs(latitude) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitude), latitude, "Latitude must lie between -90 and 90.");
        return double.DegreesToRadians(latitude);
    }
}
