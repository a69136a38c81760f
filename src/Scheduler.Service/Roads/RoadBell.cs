namespace Scheduler.Service.Roads;

/// <summary>Wakes the worker when there may be something to send.</summary>
public sealed class RoadBell : IDisposable
{
    private readonly SemaphoreSlim _rung = new(0, 1);

    public void Ring()
    {
        try
        {
            _rung.Release();
        }
        catch (SemaphoreFullException)
        {
            // It rings already.
        }
    }

    /// <summary>Comes back when it rings, or after the time.</summary>
    public Task WaitAsync(TimeSpan longest, CancellationToken cancel) => _rung.WaitAsync(longest, cancel);

    public void Dispose() => _rung.Dispose();
}
