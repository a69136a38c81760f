using System.Globalization;
using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>What a source's day must fulfill before it is stored.</summary>
internal static class DayValidation
{
    /// <summary>A day that differs so much from the days around it, in °C, is a fault of the source (estimate).</summary>
    public const double LargestJumpC = 25;

    private const int NeighborDays = 3;

    /// <summary>Why the day cannot be stored, or null. A missing mean is how the source shows that hours are missing.</summary>
    public static string? Fault(double? minC, double? maxC, double? meanC, bool meanAsked)
    {
        if (minC is not { } min || maxC is not { } max)
            return "The day has no minimum or no maximum.";
        if (DailyTemperature.Fault(min, max) is { } fault)
            return fault;
        if (meanC is not { } mean)
            return meanAsked ? "The day has no mean, so hours of it are missing." : null;
        if (!double.IsFinite(mean) || mean < min || mean > max)
            return string.Create(CultureInfo.InvariantCulture, $"The mean {mean} °C lies outside {min} to {max} °C.");
        return null;
    }

    /// <summary>Parts the days that jump against the middle of their neighbors from the others.</summary>
    public static (List<SourceDay> Kept, List<RefusedDay> Refused) Quarantine(IReadOnlyList<SourceDay> days)
    {
        var kept = new List<SourceDay>(days.Count);
        var refused = new List<RefusedDay>();
        for (var index = 0; index < days.Count; index++)
        {
            var jumpC = Math.Abs(Middle(days[index]) - MedianAround(days, index));
            if (jumpC > LargestJumpC)
                refused.Add(new RefusedDay(
                    days[index].Date,
                    string.Create(CultureInfo.InvariantCulture, $"The day differs by {jumpC:0.0} °C from the days around it.")));
            else
                kept.Add(days[index]);
        }
        return (kept, refused);
    }

    private static double MedianAround(IReadOnlyList<SourceDay> days, int index)
    {
        var date = days[index].Date;
        var around = new List<double>(2 * NeighborDays);
        for (var other = Math.Max(0, index - NeighborDays); other <= Math.Min(days.Count - 1, index + NeighborDays); other++)
        {
            if (other != index && Math.Abs(Period.DaysBetween(days[other].Date, date)) <= NeighborDays)
                around.Add(Middle(days[other]));
        }
        if (around.Count == 0)
            return Middle(days[index]);
        around.Sort();
        return around.Count % 2 == 1 ? around[around.Count / 2] : (around[around.Count / 2 - 1] + around[around.Count / 2]) / 2;
    }

    private static double Middle(SourceDay day) => (day.MinC + day.MaxC) / 2;
}
