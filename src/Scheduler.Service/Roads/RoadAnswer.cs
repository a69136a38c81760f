using NodaTime;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Roads;

/// <summary>From and to as HH:mm.</summary>
public sealed record QuietAnswer(string From, string To)
{
    public static QuietAnswer? Of(QuietHours? quiet) => quiet is null ? null : new QuietAnswer(RoadForm.Text(quiet.From), RoadForm.Text(quiet.To));
}

/// <param name="Every"><c>day</c> or <c>week</c>.</param>
/// <param name="At">HH:mm.</param>
/// <param name="Day">The weekday of a weekly digest.</param>
public sealed record DigestAnswer(string Every, string At, string? Day)
{
    public static DigestAnswer? Of(DigestTimes? digest) => digest is null ? null
        : new DigestAnswer(digest.IsWeekly ? "week" : "day", RoadForm.Text(digest.At), digest.Day is { } day ? RoadForm.WeekDays[(int)day - 1] : null);
}

/// <summary>A road as its owner sees it.</summary>
/// <param name="Address">E-mail only; null when the sealing keys are lost, and for other kinds.</param>
/// <param name="Url">Webhook only.</param>
/// <param name="Endpoint">Push only: the host of the push service.</param>
/// <param name="TimeZone">For quiet hours and digest; null: that of the first garden it covers.</param>
/// <param name="Pending">Notices that wait: for their day, for the end of quiet hours, for the digest, or for the road to work again.</param>
/// <param name="LastErrorKind">What kind of fault it was, for who says it in words of their own.</param>
/// <param name="NextTryAt">After a failure: nothing is sent before.</param>
/// <param name="Secret">What a webhook's bodies are signed with; shown once, when it is made.</param>
public sealed record RoadAnswer(
    Guid Id, RoadKind Kind, RoadState State, string Name, string? Address, string? Url, string? Endpoint,
    IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques, IReadOnlyList<NoticeKind> Notices,
    QuietAnswer? QuietHours, DigestAnswer? Digest, string? TimeZone,
    int Pending, Instant? LastSentAt, string? LastError, FaultKind? LastErrorKind, Instant? LastErrorAt, Instant? NextTryAt, Instant CreatedAt, string? Secret)
{
    public static RoadAnswer Of(Road road, RoadTarget? target, int pending, string? secret = null)
    {
        ArgumentNullException.ThrowIfNull(road);
        var settings = road.Settings;
        return new RoadAnswer(
            road.Id, road.Kind, road.State, settings.Name, (target as MailTarget)?.Address, (target as WebhookTarget)?.Url,
            target is PushTarget { Endpoint.Length: > 0 } push ? new Uri(push.Endpoint).Host : null,
            settings.GardenIds, settings.Techniques, settings.Notices, QuietAnswer.Of(settings.Quiet), DigestAnswer.Of(settings.Digest), settings.TimeZone,
            pending, road.LastSentAt, road.LastError?.Text, road.LastError?.Kind, road.LastErrorAt, road.WaitUntil, road.CreatedAt, secret);
    }
}

/// <summary>How a test went.</summary>
/// <param name="Arrived">The other end took it.</param>
/// <param name="Error">What went wrong, in words.</param>
public sealed record RoadTestAnswer(bool Arrived, string? Error, RoadState State);

/// <summary>Body of POST and PATCH, for the API document.</summary>
/// <param name="Kind"><c>email</c>, <c>push</c> or <c>webhook</c>; cannot be changed.</param>
/// <param name="Address">With e-mail.</param>
/// <param name="Url">With a webhook: https, on the public internet.</param>
/// <param name="Subscription">With push: what the browser's <c>PushSubscription</c> gives as JSON.</param>
/// <param name="On">PATCH only: false pauses, true takes it up again.</param>
public sealed record RoadRequest(
    RoadKind Kind, string? Name, string? Address, string? Url, SubscriptionRequest? Subscription, IReadOnlyList<Guid>? GardenIds,
    IReadOnlyList<string>? Techniques, IReadOnlyList<NoticeKind>? Notices, QuietAnswer? QuietHours, DigestAnswer? Digest, string? TimeZone, bool? On);

public sealed record SubscriptionRequest(string Endpoint, SubscriptionKeys Keys);

public sealed record SubscriptionKeys(string P256dh, string Auth);

/// <param name="Key">What a browser takes as <c>applicationServerKey</c>, base64url.</param>
public sealed record PushKeyAnswer(string Key);
