using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Hosting;

/// <summary>Days that a list is asked for: <c>?from=</c> and <c>?to=</c>, both optional.</summary>
internal readonly record struct DaySpan(LocalDate? From, LocalDate? To)
{
    public static DaySpan Read(string? from, string? to, FieldFaults faults)
    {
        var span = new DaySpan(Date("from", from, faults), Date("to", to, faults));
        if (span.From > span.To)
            faults.Add("to", $"to is {to}, before from ({from}): give a later day.");
        return span;
    }

    private static LocalDate? Date(string name, string? text, FieldFaults faults)
    {
        if (text is null)
            return null;
        if (LocalDatePattern.Iso.Parse(text) is { Success: true } parsed)
            return parsed.Value;
        faults.Add(name, $"{name} is '{FieldValue.Shorten(text)}': give a day as yyyy-MM-dd, or leave it out.");
        return null;
    }
}
