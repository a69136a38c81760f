using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Accounts;

/// <summary>
/// Reads an account document with the same readers that serve single gardens, trees and logs, so that what could not be sent one by one
/// cannot come in this way either.
/// </summary>
public sealed class DocumentReader(TreeFields trees, SettingFields settings, WorkFields work, ITechniqueNames techniques, IFeedParts feeds, RoadParts roads, IClock clock)
{
    private const int MaxGardens = 1000;
    private const int MaxTrees = 10_000;
    private const int MaxLog = 100_000;
    private const int MaxFeeds = 1000;

    private static readonly string[] Contents = ["windows", "plan", "both"];
    private static readonly string[] Gatherings = ["each", "technique"];
    private static readonly string[] Spans = ["window", "opening"];

    public ImportedAccount Read(FieldReader fields, Guid accountId)
    {
        ArgumentNullException.ThrowIfNull(fields);
        var ids = new HashSet<Guid>();
        fields.Required("format", null, value => value.OneOf([AccountDocument.FormatName]));
        fields.Required("version", null, value => value.Whole(AccountDocument.CurrentVersion, AccountDocument.CurrentVersion));
        return new ImportedAccount(
            fields.Required("name", null, value => value.Text(AccountsApi.MaxName)),
            fields.Required("gardens", null, value => value.List(MaxGardens, item => GardenOf(item, accountId, ids))) ?? [],
            fields.Required("feeds", null, value => value.List(MaxFeeds, item => FeedOf(item, ids))) ?? [],
            fields.Optional("settings", null, settings.Read),
            // Documents of before there were roads do not have them.
            fields.Optional("roads", null, value => value.List(RoadParts.MaxRoads, item => roads.Read(item, own => IdOf(own, ids)))) ?? [],
            OwnerReading.ReadUnits(fields, null), OwnerReading.ReadLanguage(fields, null));
    }

    private ImportedGarden? GardenOf(FieldValue value, Guid accountId, HashSet<Guid> ids)
    {
        if (value.Object() is not { } fields)
            return null;
        var now = clock.GetCurrentInstant();
        var garden = fields.Required("garden", null, item =>
        {
            if (item.Object() is not { } own)
                return null;
            var read = GardenFields.Read(own, null, accountId, now) with
            {
                Id = IdOf(own, ids),
                Recorded = own.Required("recorded", null, field => field.Flag()),
                CreatedAt = own.Required("createdAt", null, field => field.Moment()),
                ChangedAt = own.Required("changedAt", null, field => field.Moment())
            };
            own.RefuseUnknown();
            return read;
        });
        var today = garden?.DateAt(now) ?? now.InUtc().Date;
        var imported = new ImportedGarden(
            garden!,
            fields.Required("readings", null, list => list.List(MaxLog, item => ReadingOf(item, today))) ?? [],
            fields.Required("observations", null, list => list.List(MaxLog, item => Logged(
                item, ids, own => BenchObservation.Read(own, today), (seen, id) => seen with { Id = id }))) ?? [],
            fields.Required("trees", null, list => list.List(MaxTrees, item => TreeOf(item, today, ids))) ?? []);
        fields.RefuseUnknown();
        return imported;
    }

    private ImportedTree? TreeOf(FieldValue value, LocalDate today, HashSet<Guid> ids)
    {
        if (value.Object() is not { } fields)
            return null;
        var tree = fields.Required("tree", null, item =>
        {
            if (item.Object() is not { } own)
                return null;
            var read = trees.Read(own, null, today) with { Id = IdOf(own, ids) };
            // The garden is the one the tree stands under; its id is only there for the reader of the document.
            own.Optional("gardenId", null, field => field.Id());
            var stored = new StoredTree(
                default, read, own.Required("createdAt", null, field => field.Moment()), own.Required("changedAt", null, field => field.Moment()));
            own.RefuseUnknown();
            return stored;
        });
        var imported = new ImportedTree(
            tree!,
            fields.Required("work", null, list => list.List(MaxLog, item => Logged(
                item, ids, own => work.Read(own, today), (done, id) => done with { Id = id }))) ?? [],
            fields.Required("observations", null, list => list.List(MaxLog, item => Logged(
                item, ids, own => ObservationFields.Read(own, today), (seen, id) => seen with { Id = id }))) ?? [])
        {
            // Documents of before there were follow-ups do not have it.
            Dismissed = fields.Optional("dismissedFollowUps", null, list => list.List(MaxLog, DismissedOf)) ?? []
        };
        fields.RefuseUnknown();
        if (imported.Dismissed.Any(item => imported.Work.All(done => done.Id != item.WorkId)))
            fields.Fault("dismissedFollowUps", "names work that is not in this tree's log: leave such entries out.");
        return imported;
    }

    private DismissedItem? DismissedOf(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var item = new DismissedItem(
            fields.Required("workId", null, field => field.Id()),
            fields.Required("what", null, field => field.Text(100)),
            fields.Optional("technique", null, field => field.Known(techniques.Exists, techniques.Nearest)));
        fields.RefuseUnknown();
        return item;
    }

    private static T? Logged<T>(FieldValue value, HashSet<Guid> ids, Func<FieldReader, T> read, Func<T, Guid, T> named) where T : class
    {
        if (value.Object() is not { } fields)
            return null;
        var entry = named(read(fields), IdOf(fields, ids));
        fields.RefuseUnknown();
        return entry;
    }

    private static ReadingItem? ReadingOf(FieldValue value, LocalDate today)
    {
        if (value.Object() is not { } fields)
            return null;
        var reading = new ReadingItem(
            fields.Required("date", null, field => field.Date(TreeFields.Earliest, today)),
            fields.Required("tminC", null, field => field.Number(DailyTemperature.ColdestC, DailyTemperature.HottestC, "°C")),
            fields.Required("tmaxC", null, field => field.Number(DailyTemperature.ColdestC, DailyTemperature.HottestC, "°C")));
        fields.RefuseUnknown();
        if (reading.TminC > reading.TmaxC)
            fields.Fault("tminC", "is above tmaxC: swap the two.");
        return reading;
    }

    private FeedPart? FeedOf(FieldValue value, HashSet<Guid> ids)
    {
        if (value.Object() is not { } fields)
            return null;
        var feed = new FeedPart(
            IdOf(fields, ids),
            fields.Required("name", null, field => field.Text(200)),
            fields.Optional("gardenIds", null, field => field.List(MaxGardens, item => item.Id())),
            fields.Optional("techniques", null, field => field.List(100, item => item.Known(techniques.Exists, techniques.Nearest))),
            fields.Required("content", null, field => field.OneOf(Contents)),
            fields.Required("reminders", null, field => field.List(10, Reminder)) ?? [],
            fields.Required("createdAt", null, field => field.Moment()))
        {
            Gathered = fields.Required("gathered", "each", field => field.OneOf(Gatherings)),
            Span = fields.Required("span", "window", field => field.OneOf(Spans)),
            At = fields.Optional<string>("at", null, Time)
        };
        fields.RefuseUnknown();
        return feed;
    }

    private string? Reminder(FieldValue value) =>
        value.Text(40) is not { } text ? null : feeds.IsReminder(text) ? text : value.Refuse<string>("give an ISO 8601 duration, such as P1D");

    private string? Time(FieldValue value) =>
        value.Text(20) is not { } text ? null : feeds.IsTime(text) ? text : value.Refuse<string>("give a local time as HH:mm, such as 07:30, or null for events of whole days");

    private static Guid IdOf(FieldReader fields, HashSet<Guid> ids)
    {
        var id = fields.Required("id", null, field => field.Id());
        if (id != default && !ids.Add(id))
            fields.Fault("id", "is in this document more than once: leave one of them out.");
        return id;
    }
}

/// <summary>An account document that was read and found sound.</summary>
/// <param name="Settings">Null: the document says nothing of them, so they stay.</param>
public sealed record ImportedAccount(
    string Name, IReadOnlyList<ImportedGarden> Gardens, IReadOnlyList<FeedPart> Feeds, IReadOnlyDictionary<string, string>? Settings, IReadOnlyList<ImportedRoad> Roads,
    string? Units, string? Language);

public sealed record ImportedGarden(
    Garden Garden, IReadOnlyList<ReadingItem> Readings, IReadOnlyList<BenchObservation> Observations, IReadOnlyList<ImportedTree> Trees);

public sealed record ImportedTree(StoredTree Tree, IReadOnlyList<WorkRecord> Work, IReadOnlyList<Observation> Observations)
{
    public IReadOnlyList<DismissedItem> Dismissed { get; init; } = [];
}
