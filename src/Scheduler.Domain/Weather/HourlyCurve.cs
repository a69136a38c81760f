namespace Scheduler.Domain.Weather;

/// <summary>Twenty-four temperatures, at 0:00 to 23:00, in °C, drawn from the two extremes of a day.</summary>
/// <remarks>
/// Hours are those of the sun, with noon at 12. Clocks differ from it by up to two hours, which is less than what the extremes
/// leave open. Both curves contain the minimum and the maximum themselves.
/// </remarks>
public static class HourlyCurve
{
    public const int HoursADay = 24;

    // The share of the range that each hour stands above the minimum is the same every day.
    private static readonly double[] SineShares =
        [.. Enumerable.Range(0, HoursADay).Select(hour => (1 + Math.Sin((hour - 8) * Math.PI / 12)) / 2)];

    /// <summary>
    /// The shares of <see cref="DaySine"/> from 2:00, the lowest, to 14:00, the highest; 15:00 to 1:00 run back through the same.
    /// </summary>
    internal static ReadOnlySpan<double> RisingShares => SineShares.AsSpan(2, 13);

    /// <summary>
    /// One sine over the whole day, lowest at 2:00, highest at 14:00: T(h) = Tmin + (Tmax − Tmin)·(1 + sin((h − 8)·π/12))/2.
    /// </summary>
    /// <remarks>
    /// Assumes the day alone, so midnight may jump. The growth clock's thresholds were fitted with this curve (project convention);
    /// its mean over the day is the mean of the extremes. A missing day (NaN) gives 24 NaN.
    /// </remarks>
    public static void DaySine(double minC, double maxC, Span<double> hours24)
    {
        RefuseOtherLengths(hours24);
        var range = maxC - minC;
        for (var hour = 0; hour < HoursADay; hour++)
            hours24[hour] = minC + range * SineShares[hour];
    }

    /// <summary>
    /// Sine by day and logarithmic decay by night. By day, t hours after sunrise: T = Tmin + (Tmax − Tmin)·sin(πt/(D + 4)), highest
    /// two hours after noon. By night, t hours after sunset: T = Ts − (Ts − Tmin')·ln t/ln(24 − D), with Ts the temperature at sunset
    /// and Tmin' the minimum of the morning to come; the first hour stays at Ts. D is the day length.
    /// </summary>
    /// <remarks>
    /// Linvill D.E., Calculating chilling hours and chill units from daily maximum and minimum temperature observations,
    /// HortScience 25(1):14-16, 1990 (from memory). Three choices of ours: D is held between 4 and 22 h so that both parts exist;
    /// the whole hour nearest sunrise is given the minimum, which otherwise falls between two hours; and no hour leaves the day's
    /// own extremes, as they are the extremes of that calendar day. Where a neighboring day is missing, pass today's values for it.
    /// </remarks>
    public static void SineAndDecay(
        (double MinC, double MaxC) yesterday,
        (double MinC, double MaxC) today,
        double tomorrowMinC,
        double dayLengthHours,
        Span<double> hours24)
    {
        RefuseOtherLengths(hours24);
        var dayLength = Math.Clamp(dayLengthHours, 4, 22);
        var sunrise = 12 - dayLength / 2;
        var sunset = 12 + dayLength / 2;
        var lastSunsetC = ByDay(yesterday, dayLength, dayLength);
        var thisSunsetC = ByDay(today, dayLength, dayLength);

        for (var hour = 0; hour < HoursADay; hour++)
        {
            var temperatureC =
                hour < sunrise ? ByNight(lastSunsetC, today.MinC, hour + HoursADay - sunset, dayLength)
                : hour <= sunset ? ByDay(today, hour - sunrise, dayLength)
                : ByNight(thisSunsetC, tomorrowMinC, hour - sunset, dayLength);
            hours24[hour] = Math.Clamp(temperatureC, today.MinC, today.MaxC);
        }
        hours24[(int)Math.Round(sunrise)] = today.MinC;
    }

    private static double ByDay((double MinC, double MaxC) day, double sinceSunrise, double dayLength) =>
        day.MinC + (day.MaxC - day.MinC) * Math.Sin(Math.PI * sinceSunrise / (dayLength + 4));

    private static double ByNight(double sunsetC, double nextMinC, double sinceSunset, double dayLength) =>
        sunsetC - (sunsetC - nextMinC) * Math.Log(Math.Max(1, sinceSunset)) / Math.Log(HoursADay - dayLength);

    private static void RefuseOtherLengths(Span<double> hours24)
    {
        if (hours24.Length != HoursADay)
            throw new ArgumentException($"A day has {HoursADay} hours, not {hours24.Length}.", nameof(hours24));
    }
}
