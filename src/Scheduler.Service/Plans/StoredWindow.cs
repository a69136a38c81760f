using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Plans;

/// <summary>What is kept of a window as JSON: the window itself and the names its tree and garden had when it was found.</summary>
public sealed record WindowBody(WorkWindow Window, string TreeName, string GardenName);

/// <summary>
/// A window as it was last announced. The id is random and outlives every change of date; the sequence grows when
/// dates or status change; the change stamp moves with anything the owner can read.
/// </summary>
public sealed record StoredWindow(
    Guid Id, Guid GardenId, WindowBody Body, int Sequence, Instant ChangedAt, Instant? WithdrawnAt)
{
    public WindowKey Key => Body.Window.Key;
    public WindowState State => Body.Window.State;
}
