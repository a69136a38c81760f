using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Feeds;

/// <summary>A feed as it is kept, without its bytes.</summary>
public sealed record Feed
{
    public required Guid Id { get; init; }
    public required Guid AccountId { get; init; }
    public required FeedSettings Settings { get; init; }
    /// <summary>The secret of the address, sealed; <see cref="FeedTokens"/> opens it for the owner.</summary>
    public required string TokenSealed { get; init; }
    public required Instant CreatedAt { get; init; }
    /// <summary>When the settings last changed how an event looks. A new name or a wider choice changes no event.</summary>
    public required Instant ChangedAt { get; init; }
    public Instant? BodyChangedAt { get; init; }
    public Instant? LastFetchedAt { get; init; }
    /// <summary>Id of the kind of calendar app that fetched last; the app's own name is not kept.</summary>
    public string? LastFetchedBy { get; init; }
}

/// <summary>A row of the table <c>feeds</c>, as the database spells it.</summary>
internal sealed class FeedRow
{
    public const string Columns =
        "id, account_id, name, token_sealed, garden_ids, techniques, content, reminders, gathered, span, begins_at, created_at, changed_at, body_changed_at, last_fetched_at, last_fetched_by";

    public Guid Id { get; init; }
    public Guid AccountId { get; init; }
    public string Name { get; init; } = "";
    public string TokenSealed { get; init; } = "";
    public string? GardenIds { get; init; }
    public string? Techniques { get; init; }
    public string Content { get; init; } = "";
    public string Reminders { get; init; } = "";
    public string Gathered { get; init; } = "";
    public string Span { get; init; } = "";
    public string? BeginsAt { get; init; }
    public Instant CreatedAt { get; init; }
    public Instant ChangedAt { get; init; }
    public Instant? BodyChangedAt { get; init; }
    public Instant? LastFetchedAt { get; init; }
    public string? LastFetchedBy { get; init; }

    public Feed ToFeed() => new()
    {
        Id = Id,
        AccountId = AccountId,
        TokenSealed = TokenSealed,
        CreatedAt = CreatedAt,
        ChangedAt = ChangedAt,
        BodyChangedAt = BodyChangedAt,
        LastFetchedAt = LastFetchedAt,
        LastFetchedBy = LastFetchedBy,
        Settings = new FeedSettings(
            Name,
            GardenIds is null ? null : Json.Read<List<Guid>>(GardenIds),
            Techniques is null ? null : Json.Read<List<string>>(Techniques),
            Json.Read<FeedContent>($"\"{Content}\""),
            [.. Json.Read<List<string>>(Reminders).Select(Stored)])
        {
            Gathered = Json.Read<FeedGathering>($"\"{Gathered}\""),
            Span = Json.Read<FeedSpan>($"\"{Span}\""),
            At = BeginsAt is null ? null : ClockTime.Parse(BeginsAt) ?? throw new InvalidOperationException($"Stored time '{BeginsAt}' is none.")
        }
    };

    private static Reminder Stored(string text) =>
        Reminder.Parse(text) ?? throw new InvalidOperationException($"Stored reminder '{text}' is no duration.");
}
