namespace Scheduler.Domain.Accumulation;

/// <summary>Utah chill units: an hour counts by how well its temperature chills, and warm hours take units away.</summary>
/// <remarks>
/// Richardson, Seeley and Walker, HortScience 9:331-332, 1974, in °F: to 34 nothing, to 36 a half, to 48 one, to 54 a half, to 60
/// nothing, to 65 minus a half, above minus one; each interval open below and closed above. Here the °C form of the R package
/// chillR is used: 1.4, 2.4, 9.1, 12.4, 15.9 and 18.0. It is not an exact conversion (34 °F is 1.1 °C, 65 °F is 18.3 °C), but the
/// figures published for recent records were made with it. The sum usually starts where it is lowest in autumn (from memory).
/// </remarks>
public static class UtahChill
{
    /// <summary>The units of one hour; a missing hour (NaN) counts 0.</summary>
    public static double OfHour(double temperatureC) => temperatureC switch
    {
        double.NaN => 0,
        <= 1.4 => 0,
        <= 2.4 => 0.5,
        <= 9.1 => 1,
        <= 12.4 => 0.5,
        <= 15.9 => 0,
        <= 18.0 => -0.5,
        _ => -1,
    };

    public static double Sum(ReadOnlySpan<double> hourlyC)
    {
        var units = 0.0;
        foreach (var temperatureC in hourlyC)
            units += OfHour(temperatureC);
        return units;
    }
}
