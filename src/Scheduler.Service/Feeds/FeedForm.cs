using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Feeds;

/// <summary>Reads what an owner asks of a feed, new or changed, and finds every fault.</summary>
internal static class FeedForm
{
    private const int MaxName = 200;
    private const int MaxGardens = 200;
    private const int MaxTechniques = 200;
    private const int MaxReminders = 5;

    /// <summary>Nine in the morning of the day before: read right by every calendar that keeps alarms.</summary>
    private static readonly IReadOnlyList<Reminder> UsualReminders = [Reminder.Parse("PT15H")!];

    /// <summary>An event that begins at a time of day is one to be called at that time.</summary>
    private static readonly IReadOnlyList<Reminder> UsualTimedReminders = [Reminder.Parse("PT0S")!];

    public static FeedSettings Read(FieldReader fields, FeedSettings? current, ITechniqueNames techniques, IReadOnlyCollection<Guid> gardens)
    {
        var at = fields.Optional("at", current?.At, Time);
        var usual = at is null ? UsualReminders : UsualTimedReminders;
        return new FeedSettings(
            fields.Required("name", current?.Name, value => value.Text(MaxName)),
            fields.Optional("gardenIds", current?.GardenIds, value => Filled(value, value.List(MaxGardens, item => Garden(item, gardens)))),
            fields.Optional("techniques", current?.Techniques, value => Filled(value, value.List(MaxTechniques, item => item.Known(techniques.Exists, techniques.Nearest)))),
            fields.Required("content", current?.Content ?? FeedContent.Windows, value => value.Choice<FeedContent>()),
            fields.Required("reminders", current?.Reminders ?? usual, value => value.List(MaxReminders, Reminders)?.DistinctBy(Length).ToList()))
        {
            Gathered = fields.Required("gathered", current?.Gathered ?? FeedGathering.Each, value => value.Choice<FeedGathering>()),
            Span = fields.Required("span", current?.Span ?? FeedSpan.Window, value => value.Choice<FeedSpan>()),
            At = at
        };
    }

    internal static LocalTime? Time(FieldValue value)
    {
        if (value.Text(20) is not { } text)
            return null;
        return ClockTime.Parse(text) ?? value.RefuseValue<LocalTime>("give a local time from 00:00 to 23:59 as HH:mm, such as 07:30, or null for events of whole days", new FaultKind("time"));
    }

    private static Guid? Garden(FieldValue value, IReadOnlyCollection<Guid> gardens)
    {
        if (value.Text(36) is not { } text)
            return null;
        return Guid.TryParse(text, out var id) && gardens.Contains(id) ? id : value.RefuseValue<Guid>("give the id of a garden of yours", new FaultKind("choice"));
    }

    private static Reminder? Reminders(FieldValue value)
    {
        if (value.Text(40) is not { } text)
            return null;
        return Reminder.Parse(text)
            ?? value.Refuse<Reminder>("give an ISO 8601 duration in weeks, days, hours and minutes from PT0S to P30D, such as P1D or PT15H", new FaultKind("duration"));
    }

    private static (int, int) Length(Reminder reminder) => (reminder.Days, reminder.Minutes);

    // An empty list would be a feed that can never show anything.
    private static IReadOnlyList<T>? Filled<T>(FieldValue value, IReadOnlyList<T>? items)
    {
        if (items is not { Count: 0 })
            return items?.Distinct().ToList();
        value.Refuse("name at least one, or leave it out for all", new FaultKind("none-chosen"));
        return null;
    }
}
