using NodaTime;
using Scheduler.Service.Feeds;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;

namespace Scheduler.Service.Pages.Calendars;

/// <summary>All feeds of an owner that fit what is searched for.</summary>
/// <param name="Count">Before the search.</param>
/// <param name="Notice">What was just done; null: nothing.</param>
public sealed record FeedListView(
    IReadOnlyList<FeedAnswer> Feeds, int Count, ListQuery Query, IReadOnlyDictionary<Guid, string> Gardens, DateTimeZone Zone, string? Notice);

/// <summary>One feed: how to subscribe, how fresh calendars are, what it shows.</summary>
/// <param name="Gardens">Names of the gardens it shows; empty: all.</param>
/// <param name="Techniques">Names of the techniques it shows; empty: all.</param>
public sealed record FeedView(
    FeedAnswer Feed, IReadOnlyList<string> Gardens, IReadOnlyList<string> Techniques, DateTimeZone Zone, string? Notice);

/// <summary>The form of a feed.</summary>
/// <param name="Id">Null: a new one.</param>
/// <param name="Gardens">To choose from.</param>
/// <param name="Techniques">To choose from, by name.</param>
/// <param name="Reminders">Usual ones, and those of this feed that are not among them.</param>
public sealed record FeedFormView(
    Guid? Id, FormState Form, IReadOnlyList<(string Value, string Text)> Gardens, IReadOnlyList<(string Value, string Text)> Techniques,
    IReadOnlyList<(string Value, string Text)> Reminders);
