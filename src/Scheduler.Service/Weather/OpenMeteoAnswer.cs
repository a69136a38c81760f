using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>
/// Reads an Open-Meteo answer strictly: what is not exactly as asked is a fault of the whole answer; a day with a fault of its own is
/// refused alone.
/// </summary>
internal static class OpenMeteoAnswer
{
    private const string NoReason = "no reason given";

    /// <summary>How the days of this answer are to be kept.</summary>
    public sealed record Stamp(string Source, LocalDate Today, Instant FetchedAt);

    /// <summary>What is wrong with the answer as a whole, in words that complete "its answer ...".</summary>
    private sealed class FaultException(string message) : Exception(message);

    /// <summary>The days, or the fault of the whole answer.</summary>
    public static (WeatherAnswer.Got? Got, string? Fault) Read(string text, OpenMeteoQuestion question, Stamp stamp)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            return (Read(document.RootElement, question, stamp), null);
        }
        catch (JsonException)
        {
            return (null, "is no valid JSON");
        }
        catch (FaultException fault)
        {
            return (null, fault.Message);
        }
    }

    private static WeatherAnswer.Got Read(JsonElement root, OpenMeteoQuestion question, Stamp stamp)
    {
        if (root.ValueKind != JsonValueKind.Object)
            throw new FaultException("is not about one place");
        if (root.TryGetProperty("error", out var error) && error.ValueKind == JsonValueKind.True)
            throw new FaultException($"is an error: {Reason(root)}");
        if (!root.TryGetProperty("utc_offset_seconds", out var offset) || offset.ValueKind != JsonValueKind.Number
            || offset.GetDouble() != question.OffsetHours * 3600)
            throw new FaultException("does not cut its days by the offset asked for");
        var units = Block(root, "daily_units");
        var daily = Block(root, "daily");
        foreach (var variable in question.Variables)
        {
            if (!units.TryGetProperty(variable, out var unit) || unit.ValueKind != JsonValueKind.String)
                throw new FaultException($"has no {variable}");
            if (unit.GetString() != OpenMeteoQuestion.Units[variable])
                throw new FaultException($"gives {variable} in {unit.GetString()}, not in {OpenMeteoQuestion.Units[variable]}");
        }
        var dates = Dates(daily, question);
        var columns = question.Variables.ToDictionary(variable => variable, variable => Column(daily, variable, dates.Count));
        var (days, refused) = Days(dates, columns, stamp);
        var (kept, quarantined) = DayValidation.Quarantine(days);
        return new WeatherAnswer.Got(kept, [.. refused, .. quarantined], Elevation(root));
    }

    /// <summary>The <c>reason</c> of an error body, as far as there is one.</summary>
    public static string Reason(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            return Reason(document.RootElement);
        }
        catch (JsonException)
        {
            return NoReason;
        }
    }

    private static string Reason(JsonElement root) =>
        root.ValueKind == JsonValueKind.Object && root.TryGetProperty("reason", out var reason) && reason.ValueKind == JsonValueKind.String
            ? reason.GetString()! : NoReason;

    /// <summary>Null where the source does not know its height.</summary>
    public static double? Elevation(JsonElement root) =>
        root.TryGetProperty("elevation", out var elevation) && elevation.ValueKind == JsonValueKind.Number
        && elevation.GetDouble() is >= -500 and <= 9000 and var metres ? metres : null;

    private static (List<SourceDay>, List<RefusedDay>) Days(List<LocalDate> dates, Dictionary<string, double?[]> columns, Stamp stamp)
    {
        var days = new List<SourceDay>(dates.Count);
        var refused = new List<RefusedDay>();
        for (var index = 0; index < dates.Count; index++)
        {
            double? Of(string variable) => columns.TryGetValue(variable, out var column) ? column[index] : null;
            double? NotNegative(string variable) => Of(variable) is { } value && double.IsFinite(value) && value >= 0 ? value : null;
            double? minC = Of(OpenMeteoQuestion.Min), maxC = Of(OpenMeteoQuestion.Max), meanC = Of(OpenMeteoQuestion.Mean);
            if (DayValidation.Fault(minC, maxC, meanC, columns.ContainsKey(OpenMeteoQuestion.Mean)) is { } fault)
            {
                refused.Add(new RefusedDay(dates[index], fault, IsFault: minC is not null && maxC is not null));
                continue;
            }
            days.Add(new SourceDay(
                dates[index], minC!.Value, maxC!.Value, meanC, NotNegative(OpenMeteoQuestion.Precipitation),
                NotNegative(OpenMeteoQuestion.Evapotranspiration), NotNegative(OpenMeteoQuestion.Gusts),
                dates[index] < stamp.Today ? DayKind.Observed : DayKind.Forecast, stamp.Source, false, stamp.FetchedAt));
        }
        return (days, refused);
    }

    private static List<LocalDate> Dates(JsonElement daily, OpenMeteoQuestion question)
    {
        if (!daily.TryGetProperty("time", out var time) || time.ValueKind != JsonValueKind.Array)
            throw new FaultException("has no dates");
        var dates = new List<LocalDate>();
        foreach (var element in time.EnumerateArray())
        {
            if (element.ValueKind != JsonValueKind.String || !LocalDatePattern.Iso.Parse(element.GetString()!).TryGetValue(default, out var date)
                || date != question.From.PlusDays(dates.Count) || date > question.To)
                throw new FaultException($"does not have exactly the dates from {question.From:R} to {question.To:R}");
            dates.Add(date);
        }
        if (dates.Count != question.Days)
            throw new FaultException($"does not have exactly the dates from {question.From:R} to {question.To:R}");
        return dates;
    }

    private static double?[] Column(JsonElement daily, string variable, int length)
    {
        if (!daily.TryGetProperty(variable, out var column) || column.ValueKind != JsonValueKind.Array)
            throw new FaultException($"has no {variable}");
        if (column.GetArrayLength() != length)
            throw new FaultException($"has {column.GetArrayLength()} values of {variable} for {length} dates");
        return [.. column.EnumerateArray().Select(element => element.ValueKind switch
        {
            JsonValueKind.Null => (double?)null,
            JsonValueKind.Number => element.GetDouble(),
            _ => throw new FaultException($"has a value of {variable} that is no number")
        })];
    }

    private static JsonElement Block(JsonElement root, string name) =>
        root.TryGetProperty(name, out var block) && block.ValueKind == JsonValueKind.Object
            ? block : throw new FaultException($"has no {name}");
}
