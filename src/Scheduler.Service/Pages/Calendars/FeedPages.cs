using Scheduler.Service.Catalog;
using Scheduler.Service.Feeds;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Calendars;

/// <summary>Gathers what the pages of feeds show.</summary>
public sealed class FeedPages(FeedDesk desk, GardenStore gardens, CurrentCatalog catalog, OwnerTime time, PageContext page)
{
    /// <summary>Orders of the list; the first is the usual one.</summary>
    public static readonly IReadOnlyList<string> Sorts = ["name", "newest", "fetched"];

    private const int Most = 500;

    /// <summary>Alarms that make sense for an event of a whole day: at nine or in the evening, not at midnight. Counted back from midnight.</summary>
    private static readonly string[] UsualReminders = ["PT0S", "PT6H", "PT15H", "P1DT15H", "P6DT15H"];

    /// <summary>The same for events that begin at a time of day, counted back from it.</summary>
    private static readonly string[] UsualTimedReminders = ["PT0S", "PT30M", "P1D", "P7D"];

    public async Task<FeedListView> ListAsync(ListQuery query, HttpRequest request, string? notice, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(query);
        var feeds = (await desk.Store.ListAsync(page.Owner.AccountId, null, Most, cancel)).Select(feed => desk.Answer(feed, request)).ToList();
        var names = await NamesAsync(cancel);
        // A feed of all gardens is found under each of their names.
        var fitting = feeds.Where(feed => query.Fits([feed.Name, Content(page, feed), .. (feed.GardenIds ?? names.Keys).Select(garden => names.GetValueOrDefault(garden))]));
        var byName = fitting.OrderBy(feed => feed.Name, StringComparer.OrdinalIgnoreCase);
        return new FeedListView(
            // They are stored oldest first.
            [.. query.Sort switch { "newest" => fitting.Reverse(), "fetched" => byName.OrderByDescending(feed => feed.LastFetchedAt), _ => byName }],
            feeds.Count, query, names, await time.ZoneAsync(cancel), notice);
    }

    /// <summary>What a feed shows, in words.</summary>
    internal static string Content(PageContext page, FeedAnswer feed) => page["Feeds.Content." + Domain.Trees.Ids.Of(feed.Content)];

    public async Task<FeedView?> ShowAsync(Guid id, HttpRequest request, string? notice, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } feed)
            return null;
        var names = await NamesAsync(cancel);
        var techniques = Techniques().ToDictionary(one => one.Value, one => one.Text);
        return new FeedView(
            desk.Answer(feed, request),
            [.. feed.Settings.GardenIds?.Where(names.ContainsKey).Select(garden => names[garden]) ?? []],
            [.. feed.Settings.Techniques?.Select(technique => techniques.GetValueOrDefault(technique, technique)) ?? []],
            await time.ZoneAsync(cancel), notice);
    }

    /// <param name="refused">The form as it came back; null: as the feed stands, or as a new one begins.</param>
    public async Task<FeedFormView?> FormAsync(Guid? id, FormState? refused, CancellationToken cancel)
    {
        var feed = id is { } known ? await desk.Store.FindAsync(page.Owner.AccountId, known, cancel) : null;
        if (id is not null && feed is null)
            return null;
        var settings = feed?.Settings;
        var isTimed = settings?.At is not null;
        string[] set = settings is null ? ["PT15H"] : [.. settings.Reminders.Select(reminder => reminder.Text)];
        var form = refused ?? FormState.With(
        [
            ("name", settings?.Name ?? page["Feeds.UsualName"]),
            ("content", Domain.Trees.Ids.Of(settings?.Content ?? FeedContent.Windows)),
            ("gathered", Domain.Trees.Ids.Of(settings?.Gathered ?? FeedGathering.Each)),
            ("span", Domain.Trees.Ids.Of(settings?.Span ?? FeedSpan.Window)),
            ("at", settings?.At is { } at ? ClockTime.Text(at) : null),
            .. (settings?.GardenIds ?? []).Select(garden => ("gardenIds", (string?)garden.ToString())),
            .. (settings?.Techniques ?? []).Select(technique => ("techniques", (string?)technique)),
            .. set.Select(reminder => ("reminders", (string?)reminder))
        ]);
        return new FeedFormView(
            id, form, [.. (await NamesAsync(cancel)).Select(garden => (garden.Key.ToString(), garden.Value))], Techniques(),
            [.. (isTimed ? UsualTimedReminders : UsualReminders).Union(set).Select(reminder => (reminder, Said(page, reminder, isTimed)))]);
    }

    /// <summary>A reminder in words.</summary>
    internal static string Said(PageContext page, string reminder, bool isTimed)
    {
        if (isTimed)
            return UsualTimedReminders.Contains(reminder) ? page["Feeds.ReminderTimed." + reminder] : page["Feeds.ReminderBefore", reminder];
        return UsualReminders.Contains(reminder) ? page["Feeds.Reminder." + reminder] : page["Feeds.ReminderOther", reminder];
    }

    private IReadOnlyList<(string Value, string Text)> Techniques() =>
        [.. catalog.Content.Craft.Techniques.Select(technique => (technique.Id, technique.Name)).OrderBy(one => one.Name, StringComparer.OrdinalIgnoreCase)];

    private async Task<IReadOnlyDictionary<Guid, string>> NamesAsync(CancellationToken cancel) =>
        (await gardens.ListAsync(page.Owner.AccountId, "", Most, cancel)).OrderBy(garden => garden.Name, StringComparer.OrdinalIgnoreCase)
            .ToDictionary(garden => garden.Id, garden => garden.Name);
}
