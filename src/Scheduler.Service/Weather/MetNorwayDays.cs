using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>
/// Derives daily extremes from a MET Norway point forecast: hourly values, and the extremes of 6-hour steps, within each local day.
/// A day counts when at least 90 % of it is covered.
/// </summary>
/// <remarks>
/// A 6-hour step that crosses midnight has its extremes on either side unknown, so there the two values at its ends are joined by a
/// straight line and cut at midnight. Rain of such a step is shared by hours.
/// </remarks>
internal static class MetNorwayDays
{
    private const double LeastCoverage = 0.9;
    private const int HoursADay = 24;

    /// <summary>The complete days, or the fault of the whole answer, in words that complete "its answer ...".</summary>
    public static (WeatherAnswer.Got? Got, string? Fault) Read(string text, int offsetHours, Instant now)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            var steps = Steps(document.RootElement, offsetHours, out var fault);
            if (fault is not null)
                return (null, fault);
            var (kept, refused) = Days(steps, FixedOffset.Today(now, offsetHours), now);
            return (new WeatherAnswer.Got(kept, refused, ElevationM(document.RootElement)), null);
        }
        catch (JsonException)
        {
            return (null, "is no valid JSON");
        }
    }

    private static (List<SourceDay>, List<RefusedDay>) Days(List<Step> steps, LocalDate today, Instant now)
    {
        var tallies = new SortedDictionary<LocalDate, Tally>();
        for (var index = 0; index < steps.Count; index++)
            Add(tallies, steps[index], index + 1 < steps.Count ? steps[index + 1] : null);
        var days = new List<SourceDay>();
        var refused = new List<RefusedDay>();
        foreach (var (date, tally) in tallies)
        {
            if (tally.CoveredHours < LeastCoverage * HoursADay)
                refused.Add(new RefusedDay(date, $"Only {tally.CoveredHours} hours of the day are covered.", IsFault: false));
            else if (DailyTemperature.Fault(tally.MinC, tally.MaxC) is { } fault)
                refused.Add(new RefusedDay(date, fault));
            else
                days.Add(new SourceDay(
                    date, tally.MinC, tally.MaxC, null, tally.RainHours >= LeastCoverage * HoursADay ? Math.Round(tally.RainMm, 2) : null,
                    null, null, date < today ? DayKind.Observed : DayKind.Forecast, SourceNames.MetNorway, false, now));
        }
        var (kept, quarantined) = DayValidation.Quarantine(days);
        return (kept, [.. refused, .. quarantined]);
    }

    private static void Add(SortedDictionary<LocalDate, Tally> tallies, Step step, Step? next)
    {
        var day = Of(step.Local.Date);
        day.Include(step.TemperatureC);
        var sixHoursInDay = step.Local.Hour + 6 <= HoursADay;
        if (sixHoursInDay && step.SixHourMinC is { } min && step.SixHourMaxC is { } max)
        {
            day.Include(min);
            day.Include(max);
        }
        var hours = next is null ? 0 : (int)Period.Between(step.Local, next.Local, PeriodUnits.Hours).Hours;
        if (next is not null && hours == 1)
        {
            day.Cover(1);
            day.Rain(step.OneHourMm, 1);
        }
        else if (next is not null && hours == 6 && step.SixHourMinC is not null && step.SixHourMaxC is not null)
        {
            var inDay = Math.Min(6, HoursADay - step.Local.Hour);
            day.Cover(inDay);
            day.Rain(step.SixHourMm * inDay / 6, inDay);
            if (inDay < 6)
            {
                var atMidnightC = double.Lerp(step.TemperatureC, next.TemperatureC, inDay / 6.0);
                var following = Of(step.Local.Date.PlusDays(1));
                day.Include(atMidnightC);
                following.Include(atMidnightC);
                following.Cover(6 - inDay);
                following.Rain(step.SixHourMm * (6 - inDay) / 6, 6 - inDay);
            }
        }

        Tally Of(LocalDate date) => tallies.TryGetValue(date, out var tally) ? tally : tallies[date] = new Tally();
    }

    private static List<Step> Steps(JsonElement root, int offsetHours, out string? fault)
    {
        var steps = new List<Step>();
        fault = null;
        if (Inside(root, "properties", "timeseries") is not { ValueKind: JsonValueKind.Array } series)
            fault = "has no timeseries";
        else if (Inside(root, "properties", "meta", "units", "air_temperature") is not { ValueKind: JsonValueKind.String } unit
            || unit.GetString() != "celsius")
            fault = "does not give air_temperature in celsius";
        else if (Inside(root, "properties", "meta", "units", "precipitation_amount") is { } rainUnit
            && (rainUnit.ValueKind != JsonValueKind.String || rainUnit.GetString() != "mm"))
            fault = "does not give precipitation_amount in mm";
        else
        {
            foreach (var element in series.EnumerateArray())
            {
                if (StepOf(element, offsetHours) is not { } step || (steps.Count > 0 && step.Local <= steps[^1].Local))
                {
                    fault = $"has a faulty step after {steps.Count} good ones";
                    break;
                }
                steps.Add(step);
            }
        }
        return steps;
    }

    private static Step? StepOf(JsonElement element, int offsetHours)
    {
        if (Inside(element, "time") is not { ValueKind: JsonValueKind.String } time
            || !InstantPattern.General.Parse(time.GetString()!).TryGetValue(default, out var instant)
            || Number(element, "data", "instant", "details", "air_temperature") is not { } temperatureC)
            return null;
        return new Step(
            instant.WithOffset(Offset.FromHours(offsetHours)).LocalDateTime,
            temperatureC,
            Number(element, "data", "next_1_hours", "details", "precipitation_amount"),
            Number(element, "data", "next_6_hours", "details", "precipitation_amount"),
            Number(element, "data", "next_6_hours", "details", "air_temperature_min"),
            Number(element, "data", "next_6_hours", "details", "air_temperature_max"));
    }

    private static double? ElevationM(JsonElement root) =>
        Inside(root, "geometry", "coordinates") is { ValueKind: JsonValueKind.Array } place && place.GetArrayLength() == 3
        && place[2].ValueKind == JsonValueKind.Number ? place[2].GetDouble() : null;

    private static double? Number(JsonElement element, params ReadOnlySpan<string> path) =>
        Inside(element, path) is { ValueKind: JsonValueKind.Number } value && double.IsFinite(value.GetDouble()) ? value.GetDouble() : null;

    private static JsonElement? Inside(JsonElement element, params ReadOnlySpan<string> path)
    {
        foreach (var name in path)
        {
            if (element.ValueKind != JsonValueKind.Object || !element.TryGetProperty(name, out element))
                return null;
        }
        return element;
    }

    private sealed record Step(
        LocalDateTime Local, double TemperatureC, double? OneHourMm, double? SixHourMm, double? SixHourMinC, double? SixHourMaxC);

    private sealed class Tally
    {
        public double MinC { get; private set; } = double.PositiveInfinity;
        public double MaxC { get; private set; } = double.NegativeInfinity;
        public int CoveredHours { get; private set; }
        public double RainMm { get; private set; }
        public int RainHours { get; private set; }

        public void Include(double temperatureC) => (MinC, MaxC) = (Math.Min(MinC, temperatureC), Math.Max(MaxC, temperatureC));

        public void Cover(int hours) => CoveredHours += hours;

        public void Rain(double? mm, int hours)
        {
            if (mm is not >= 0)
                return;
            RainMm += mm.Value;
            RainHours += hours;
        }
    }
}
