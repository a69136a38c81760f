using NodaTime;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Roads;

namespace Scheduler.Service.Pages.Reminders;

/// <summary>All roads of an owner besides feeds, after filter and order.</summary>
/// <param name="Count">Before the filter.</param>
/// <param name="PushKey">What a browser subscribes to.</param>
/// <param name="MailMissing">Why this host sends no mail; null: it does.</param>
/// <param name="Push">The form of this device as it came back.</param>
/// <param name="Notice">What was just done; null: nothing.</param>
public sealed record ReminderListView(
    IReadOnlyList<ReminderItem> Shown, int Count, ReminderQuery Query, DateTimeZone Zone, string PushKey, RoadError? MailMissing, FormState Push, string? Notice);

/// <param name="End">Of a browser's subscription: a print of its endpoint, by which that browser knows it as its own; null for other kinds.</param>
public sealed record ReminderItem(RoadAnswer Road, string? End)
{
    /// <summary>What last went wrong has not been followed by anything that arrived.</summary>
    public static bool HasTrouble(RoadAnswer road)
    {
        ArgumentNullException.ThrowIfNull(road);
        return road.LastError is not null && (road.NextTryAt is not null || road.LastSentAt is null || road.LastErrorAt > road.LastSentAt);
    }
}

/// <param name="Kind">Null: all.</param>
/// <param name="Sort"><c>name</c>, <c>kind</c>, <c>sent</c> or <c>trouble</c>.</param>
public sealed record ReminderQuery(string? Text, RoadKind? Kind, string Sort)
{
    public static readonly IReadOnlyList<string> Sorts = ["name", "kind", "sent", "trouble"];

    public static ReminderQuery Of(string? text, string? kind, string? sort) => new(
        string.IsNullOrWhiteSpace(text) ? null : text.Trim(), Domain.Trees.Ids.TryParse<RoadKind>(kind ?? "", out var known) ? known : null,
        Sorts.FirstOrDefault(one => one == sort) ?? Sorts[0]);

    public IReadOnlyList<ReminderItem> Of(IEnumerable<ReminderItem> items)
    {
        var fitting = items.Where(item => (Kind is null || item.Road.Kind == Kind) && (Text is null || Words(item.Road).Any(word => word.Contains(Text, StringComparison.OrdinalIgnoreCase))))
            .OrderBy(item => item.Road.Name, StringComparer.OrdinalIgnoreCase).ThenBy(item => item.Road.CreatedAt);
        return Sort switch
        {
            "kind" => [.. fitting.OrderBy(item => item.Road.Kind)],
            "sent" => [.. fitting.OrderByDescending(item => item.Road.LastSentAt)],
            "trouble" => [.. fitting.OrderByDescending(item => item.Road.State is RoadState.Gone or RoadState.Unconfirmed || ReminderItem.HasTrouble(item.Road))],
            _ => [.. fitting]
        };
    }

    private static IEnumerable<string> Words(RoadAnswer road) => new[] { road.Name, road.Address, road.Url, road.Endpoint }.OfType<string>();
}

/// <summary>One road: whether it works, what it tells, and what can be done with it.</summary>
/// <param name="Gardens">Names of the gardens it tells of; empty: all.</param>
/// <param name="Techniques">Names of the techniques it tells of; empty: all.</param>
/// <param name="Refusal">Why what was asked could not be done; null: it was, or nothing was asked.</param>
public sealed record ReminderView(
    RoadAnswer Road, IReadOnlyList<string> Gardens, IReadOnlyList<string> Techniques, DateTimeZone Zone, string? Notice, string? Refusal);

/// <summary>The form of a road, new or changed.</summary>
/// <param name="Id">Null: a new one.</param>
public sealed record ReminderFormView(
    Guid? Id, RoadKind Kind, FormState Form, IReadOnlyList<(string Value, string Text)> Gardens, IReadOnlyList<(string Value, string Text)> Techniques, RoadError? MailMissing);

/// <summary>A webhook's secret, shown once.</summary>
public sealed record ReminderSecret(Guid Id, string Secret);
