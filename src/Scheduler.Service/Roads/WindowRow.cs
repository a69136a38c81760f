using NodaTime;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>An announced window as the table holds it, read under the name <c>w</c>.</summary>
internal class WindowRow
{
    public const string Columns = "w.id AS window_id, w.garden_id, w.body, w.sequence, w.changed_at, w.withdrawn_at";

    public Guid WindowId { get; init; }
    public Guid GardenId { get; init; }
    public string Body { get; init; } = "";
    public long Sequence { get; init; }
    public Instant ChangedAt { get; init; }
    public Instant? WithdrawnAt { get; init; }

    public StoredWindow ToWindow() => new(WindowId, GardenId, Json.Read<WindowBody>(Body), (int)Sequence, ChangedAt, WithdrawnAt);
}
