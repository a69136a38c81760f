using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Gardens;
using Scheduler.Service.Roads;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Accounts;

/// <summary>All that an account owns. What follows from it (windows, feed bytes) and what is secret (keys, feed addresses, push subscriptions) is not in it.</summary>
/// <param name="Settings">The account's choices where practice disagrees; null in documents from before there were any.</param>
/// <param name="Units">How pages are shown; null: not chosen. The same with the language.</param>
public sealed record AccountDocument(
    string Format, int Version, string Name, IReadOnlyList<GardenPart> Gardens, IReadOnlyList<FeedPart> Feeds,
    IReadOnlyDictionary<string, object>? Settings, IReadOnlyList<RoadPart> Roads, string? Units, string? Language)
{
    public const string FormatName = "scheduler-account";
    public const int CurrentVersion = 1;
}

/// <summary>A garden with all that stands in it.</summary>
public sealed record GardenPart(
    GardenItem Garden, IReadOnlyList<ReadingItem> Readings, IReadOnlyList<BenchObservation> Observations, IReadOnlyList<TreePart> Trees);

/// <summary>The garden itself, with the fields of a garden request.</summary>
/// <param name="Recorded">It lives on recorded weather, as those of the demonstration do.</param>
public sealed record GardenItem(
    Guid Id, string Name, double Latitude, double Longitude, double? ElevationM, string? TimeZone, string? HardinessZone, double? TemperatureOffsetC,
    IReadOnlyList<WorkDay> WorkDays, IReadOnlyList<DayException> Exceptions, string FirstFrostChoice, bool? WaterAssured, bool? FrostFreeShelter, bool Recorded, Instant CreatedAt, Instant ChangedAt);

/// <summary>One day of the owner's own thermometer [C].</summary>
public sealed record ReadingItem(LocalDate Date, double TminC, double TmaxC);

/// <summary>A tree with its log, and what of the log's follow-ups its owner let go.</summary>
public sealed record TreePart(
    TreeAnswer Tree, IReadOnlyList<WorkRecord> Work, IReadOnlyList<Observation> Observations, IReadOnlyList<DismissedItem> DismissedFollowUps);

/// <summary>A follow-up that was let go, named by the work it follows from.</summary>
public sealed record DismissedItem(Guid WorkId, string What, string? Technique);

/// <summary>A feed's settings, without its secret address: a feed that is brought back gets a new one.</summary>
public sealed record FeedPart(
    Guid Id, string Name, IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques, string Content, IReadOnlyList<string> Reminders,
    Instant CreatedAt)
{
    /// <summary>How it gathers events; documents from before there was a choice have none of the three.</summary>
    public string Gathered { get; init; } = "each";

    /// <summary>How long the event of a window lasts.</summary>
    public string Span { get; init; } = "window";

    /// <summary>Local time (HH:mm) at which events begin; null: events of whole days.</summary>
    public string? At { get; init; }
}
