using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Roads;

/// <summary>One notice that a road has to tell or has told.</summary>
/// <param name="Planned">The visit as planned; for notices of that kind only.</param>
public sealed record ParcelItem(Guid NoticeId, NoticeJob Job, LocalDate Due, bool IsUrgent, bool IsTold, StoredWindow Window, PlannedVisit? Planned)
{
    public WorkWindow Work => Window.Body.Window;
}

/// <summary>What a road carries in one go.</summary>
/// <param name="Id">The same whenever the same is sent again, so that the other end can know it for a repeat.</param>
/// <param name="Topic">What it is about; a later one about the same replaces it where it has not been seen yet.</param>
/// <param name="Day">The road's local day.</param>
/// <param name="Until">After that none of it matters any more.</param>
/// <param name="News">The notices that count as told once it has arrived.</param>
/// <param name="Shown">Those and, of tonight's frost, the trees told before: a later message replaces the earlier one.</param>
/// <param name="DigestOn">The day whose digest it is.</param>
public sealed record Parcel(
    string Id, string Topic, LocalDate Day, Instant Until, bool IsUrgent, IReadOnlyList<ParcelItem> News, IReadOnlyList<ParcelItem> Shown, LocalDate? DigestOn = null);

/// <summary>How a try went.</summary>
/// <param name="Error">Null: it arrived.</param>
/// <param name="IsGone">The other end said that it is no more.</param>
/// <param name="Wait">How long the other end asks to be left alone.</param>
public sealed record Carried(RoadError? Error, bool IsGone = false, Duration? Wait = null)
{
    public static readonly Carried Arrived = new((RoadError?)null);

    public static Carried Failed(RoadError error, Duration? wait = null) => new(error, false, wait);

    public static Carried Gone(RoadError error) => new(error, true);
}

/// <summary>Brings parcels to one kind of end.</summary>
public interface IRoadCarrier
{
    RoadKind Kind { get; }

    Task<Carried> SendAsync(Road road, RoadTarget target, Parcel parcel, CancellationToken cancel);

    /// <summary>Sends something that says it is a test.</summary>
    Task<Carried> TestAsync(Road road, RoadTarget target, CancellationToken cancel);
}
