using System.Text.Json;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>Every reader sees the same events, whatever stands in the names and wherever the fold falls.</summary>
public sealed class ReadersTests
{
    private static readonly FeedLook Look = FeedSamples.Look("PT15H", "P1DT2H") with { Name = "Żółw; \"5, 6\" 🐢" };

    [ReaderFact("python3-icalendar")]
    public void Sweep_PythonIcalendar_ReadsAsWritten() => ReadsSweep("python3-icalendar");

    [ReaderFact("python3-vobject")]
    public void Sweep_PythonVobject_ReadsAsWritten() => ReadsSweep("python3-vobject");

    [ReaderFact("libical")]
    public void Sweep_Libical_ReadsAsWritten() => ReadsSweep("libical");

    [ReaderFact("ical.js")]
    public void Sweep_IcalJs_ReadsAsWritten() => ReadsSweep("ical.js");

    [ReaderFact("python3-icalendar")]
    public void States_PythonIcalendar_ReadAsWritten() => ReadsStates("python3-icalendar");

    [ReaderFact("python3-vobject")]
    public void States_PythonVobject_ReadAsWritten() => ReadsStates("python3-vobject");

    [ReaderFact("libical")]
    public void States_Libical_ReadAsWritten() => ReadsStates("libical");

    [ReaderFact("ical.js")]
    public void States_IcalJs_ReadAsWritten() => ReadsStates("ical.js");

    [ReaderFact("python3-icalendar")]
    public void Empty_PythonIcalendar_IsACalendar() => ReadsNothing("python3-icalendar");

    [ReaderFact("python3-vobject")]
    public void Empty_PythonVobject_IsACalendar() => ReadsNothing("python3-vobject");

    [ReaderFact("libical")]
    public void Empty_Libical_IsACalendar() => ReadsNothing("libical");

    [ReaderFact("ical.js")]
    public void Empty_IcalJs_IsACalendar() => ReadsNothing("ical.js");

    private static void ReadsSweep(string reader)
    {
        var names = FeedNames.Sweep().ToList();
        var windows = names.Select((name, number) =>
            FeedSamples.Shown(number, name.Written, FeedSamples.Pinch() with { Amount = name.Written }, garden: name.Written));
        var read = Reader.Named(reader).Read(CalendarWriter.Write(Look, windows));
        Assert.Equal("Żółw; \"5, 6\" 🐢", read.GetProperty("name").GetString());
        var events = read.GetProperty("events").EnumerateArray().ToList();
        Assert.Equal(names.Count, events.Count);
        for (var number = 0; number < names.Count; number++)
        {
            var name = names[number];
            Assert.Equal($"{FeedSamples.Id(number)}@scheduler.test", Text(events[number], "uid"));
            Assert.Equal("Pinch window opens: " + name.Line, Text(events[number], "summary"));
            Assert.Equal(name.Line, Text(events[number], "location"));
            Assert.Contains("\nHow much: " + name.Lines + "\nBeware:", Text(events[number], "description"), StringComparison.Ordinal);
        }
    }

    private static void ReadsStates(string reader)
    {
        var states = Enum.GetValues<WindowState>();
        var windows = states.Select((state, number) =>
        {
            var shown = FeedSamples.Shown(number, "Elm", FeedSamples.Pinch(state));
            return shown with { Sequence = 7 + number };
        });
        var events = Reader.Named(reader).Read(CalendarWriter.Write(Look, windows)).GetProperty("events").EnumerateArray().ToList();
        Assert.Equal(states.Length, events.Count);
        for (var number = 0; number < states.Length; number++)
        {
            var (status, rings) = states[number] switch
            {
                WindowState.Forecast => ("TENTATIVE", true),
                WindowState.Open or WindowState.Held => ("CONFIRMED", true),
                WindowState.Withdrawn => ("CANCELLED", false),
                _ => ("CONFIRMED", false)
            };
            Assert.Equal(
                ($"2021-04-12", "2021-05-04", status, 7 + number, "TRANSPARENT", "2021-03-01T06:00:00Z", "2021-03-01T06:00:00Z"),
                (Text(events[number], "start"), Text(events[number], "end"), Text(events[number], "status"), events[number].GetProperty("sequence").GetInt32(),
                    Text(events[number], "transparency"), Text(events[number], "stamp"), Text(events[number], "modified")));
            Assert.Equal(["tip-pinch"], events[number].GetProperty("categories").EnumerateArray().Select(category => category.GetString()));
            Assert.Equal(rings ? [900, 1560] : [], events[number].GetProperty("alarms").EnumerateArray().Select(alarm => alarm.GetInt32()));
        }
    }

    private static void ReadsNothing(string reader)
    {
        var read = Reader.Named(reader).Read(CalendarWriter.Write(Look, []));
        Assert.Equal(0, read.GetProperty("events").GetArrayLength());
        Assert.Equal("Żółw; \"5, 6\" 🐢", read.GetProperty("name").GetString());
    }

    private static string Text(JsonElement read, string field) => read.GetProperty(field).GetString()!;
}
