namespace Scheduler.Domain.Weather;

/// <summary>
/// The change of air temperature with height: 6.5 °C colder per kilometer, the linear gradient of the standard atmosphere
/// (ICAO Doc 7488; ISO 2533) below 11 km.
/// </summary>
/// <remarks>A mean of the free air. Valley inversions run the other way on clear nights; the owner's offset is for those.</remarks>
public static class Lapse
{
    public const double CPerMetre = 0.0065;

    /// <summary>What to add to the cell's temperature to get the garden's, in °C; negative where the garden lies higher.</summary>
    public static double AdjustC(double cellElevationM, double gardenElevationM) =>
        CPerMetre * (cellElevationM - gardenElevationM);
}
