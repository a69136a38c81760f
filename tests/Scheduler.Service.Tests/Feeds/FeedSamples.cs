using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>Invented windows for tests of the feed.</summary>
internal static class FeedSamples
{
    public static readonly Instant Changed = Instant.FromUtc(2021, 3, 1, 6, 0);

    public static FeedLook Look(params string[] reminders) =>
        new("Bench", "scheduler.test", [.. reminders.Select(text => Reminder.Parse(text)!)], Instant.FromUtc(2021, 1, 1, 0, 0));

    public static Guid Id(int number) => new($"00000000-0000-4000-8000-{number:x12}");

    public static StoredWindow Stored(int number, string treeName, WorkWindow window, string garden = "Garden") =>
        new(Id(number), Id(9000), new WindowBody(window, treeName, garden), 0, Changed, null);

    public static StoredWindow Shown(int number, string treeName, WorkWindow? window = null, string garden = "Garden") =>
        Stored(number, treeName, window ?? Pinch(), garden);

    public static WorkWindow Pinch(WindowState state = WindowState.Forecast) => new()
    {
        Key = new WindowKey(Id(8000), "tip-pinch", null, 2021, 1),
        Opens = new DateBand(new(2021, 4, 5), new(2021, 4, 12), new(2021, 4, 20)),
        Closes = new DateBand(new(2021, 4, 28), new(2021, 5, 3), new(2021, 5, 11)),
        State = state,
        Title = "Pinch window opens",
        Reasons = [new Reason("new-shoots", "The first two leaves of the new shoots come apart now.")],
        Amount = "Keep one pair of leaves on strong shoots.",
        How = ["Take the soft tip between two fingers and twist it out.", "Work from the top of the crown down."],
        Cautions = ["Leave weak and inner shoots alone.", "Sap stains: wipe fingers before touching the pot."],
        Aftercare = ["No feed for a week."],
        Minutes = 20,
        Sessions = new Sessions(2, 4)
    };

    public static WorkWindow Between(LocalDate opens, LocalDate closes, WindowState state = WindowState.Forecast) =>
        Pinch(state) with { Opens = DateBand.On(opens), Closes = DateBand.On(closes) };

    public static string Text(FeedLook look, params StoredWindow[] windows) => System.Text.Encoding.UTF8.GetString(CalendarWriter.Write(look, windows));

    /// <summary>Content lines with their folds undone.</summary>
    public static string[] Lines(string calendar) =>
        calendar.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

    /// <summary>The lines of each event, keyed by UID.</summary>
    public static Dictionary<string, string> Events(string calendar) =>
        calendar.Replace("\r\n ", "", StringComparison.Ordinal)
            .Split("BEGIN:VEVENT\r\n").Skip(1)
            .Select(text => text[..text.IndexOf("END:VEVENT", StringComparison.Ordinal)])
            .ToDictionary(text => text.Split("\r\n").First(line => line.StartsWith("UID:", StringComparison.Ordinal))["UID:".Length..]);
}
