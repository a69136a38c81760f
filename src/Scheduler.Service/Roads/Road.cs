using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>How word gets to the owner, other than by a feed.</summary>
public enum RoadKind { Email, Push, Webhook }

/// <summary>Whether a road is in use.</summary>
public enum RoadState
{
    /// <summary>Not yet: the mail's link was not followed, or the webhook has not taken a test.</summary>
    Unconfirmed,
    On,
    /// <summary>Switched off by the owner.</summary>
    Paused,
    /// <summary>Ended by the link in a mail; only a new confirmation brings it back.</summary>
    Unsubscribed,
    /// <summary>The other end said that it is no more.</summary>
    Gone
}

/// <summary>What an owner decides about a road.</summary>
/// <param name="GardenIds">Gardens to hear of; null: all.</param>
/// <param name="Techniques">Techniques to hear of; null: all.</param>
/// <param name="Quiet">Null: no quiet hours.</param>
/// <param name="Digest">For e-mail; null for the others, which tell each thing when it is due.</param>
/// <param name="TimeZone">IANA id for quiet hours and digest; null: that of the first garden it covers.</param>
public sealed record RoadSettings(
    string Name, IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques, IReadOnlyList<NoticeKind> Notices, QuietHours? Quiet,
    DigestTimes? Digest, string? TimeZone)
{
    public bool Covers(Guid gardenId) => GardenIds?.Contains(gardenId) ?? true;

    public bool Wants(Guid gardenId, string technique, NoticeKind kind) =>
        Covers(gardenId) && Notices.Contains(kind) && (Techniques?.Contains(technique, StringComparer.Ordinal) ?? true);
}

/// <summary>A road as it is kept.</summary>
public sealed record Road
{
    public const string Columns =
        """
        id, account_id, kind, state, settings, target_sealed, digest_on, failures, wait_until, last_sent_at, last_error, last_error_kind, last_error_at,
        on_since, created_at
        """;

    public required Guid Id { get; init; }
    public required Guid AccountId { get; init; }
    public required RoadKind Kind { get; init; }
    public required RoadState State { get; init; }
    public required RoadSettings Settings { get; init; }
    public required string TargetSealed { get; init; }
    /// <summary>The day whose digest was last dealt with.</summary>
    public LocalDate? DigestOn { get; init; }
    /// <summary>Tries in a row that failed.</summary>
    public int Failures { get; init; }
    /// <summary>Nothing is tried before.</summary>
    public Instant? WaitUntil { get; init; }
    public Instant? LastSentAt { get; init; }
    public RoadError? LastError { get; init; }
    public Instant? LastErrorAt { get; init; }
    /// <summary>When it last came into use; it tells what is raised from then on, and what then still lay ahead.</summary>
    public Instant? OnSince { get; init; }
    public required Instant CreatedAt { get; init; }
}

/// <summary>A row of the table <c>roads</c>.</summary>
internal sealed class RoadRow
{
    public Guid Id { get; init; }
    public Guid AccountId { get; init; }
    public string Kind { get; init; } = "";
    public string State { get; init; } = "";
    public string Settings { get; init; } = "";
    public string TargetSealed { get; init; } = "";
    public LocalDate? DigestOn { get; init; }
    public long Failures { get; init; }
    public Instant? WaitUntil { get; init; }
    public Instant? LastSentAt { get; init; }
    public string? LastError { get; init; }
    public string? LastErrorKind { get; init; }
    public Instant? LastErrorAt { get; init; }
    public Instant? OnSince { get; init; }
    public Instant CreatedAt { get; init; }

    public Road ToRoad() => new()
    {
        Id = Id,
        AccountId = AccountId,
        Kind = Json.Read<RoadKind>($"\"{Kind}\""),
        State = Json.Read<RoadState>($"\"{State}\""),
        Settings = Json.Read<RoadSettings>(Settings),
        TargetSealed = TargetSealed,
        DigestOn = DigestOn,
        Failures = (int)Failures,
        WaitUntil = WaitUntil,
        LastSentAt = LastSentAt,
        LastError = LastError is null ? null : new RoadError(LastError, LastErrorKind is null ? FaultKind.Other : Json.Read<FaultKind>(LastErrorKind)),
        LastErrorAt = LastErrorAt,
        OnSince = OnSince,
        CreatedAt = CreatedAt
    };
}
