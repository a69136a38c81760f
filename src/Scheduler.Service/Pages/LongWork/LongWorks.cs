using System.Collections.Concurrent;
using NodaTime;

namespace Scheduler.Service.Pages.LongWork;

/// <summary>Whose work it is, and what it answers.</summary>
/// <param name="Question">Such as <c>hindcast 14</c>.</param>
public sealed record LongWorkKey(Guid AccountId, Guid GardenId, string Question);

/// <summary>One piece of work that takes longer than a page may: it goes on when its owner leaves, and is found again by its key.</summary>
/// <param name="print">Of what it was begun with, so that a page can tell when its result is no longer of today.</param>
public sealed class LongWork(LongWorkKey key, string print, Instant startedAt)
{
    private int _done;
    private int _total;

    public LongWorkKey Key => key;
    public string Print => print;
    public Instant StartedAt => startedAt;

    /// <summary>Steps that are over, and all steps; zero while their number is not known.</summary>
    public int Done => Volatile.Read(ref _done);
    public int Total => Volatile.Read(ref _total);

    public bool IsRunning => !Outcome.IsCompleted;
    public bool HasFailed => Outcome.IsCompleted && !Outcome.IsCompletedSuccessfully;

    /// <summary>What came out; null while it runs, or when it failed.</summary>
    public object? Result => Outcome.IsCompletedSuccessfully ? Outcome.Result : null;

    internal Task<object> Outcome { get; set; } = null!;

    /// <summary>How it stands now: a page that is drawn while the work ends must not say two things.</summary>
    public LongWorkState State
    {
        get
        {
            var (isRunning, done) = (IsRunning, Done);
            return new LongWorkState(StartedAt, Print, done, Total, isRunning, !isRunning && HasFailed, isRunning ? null : Result);
        }
    }

    public void Expect(int steps) => Volatile.Write(ref _total, steps);

    public void Step() => Interlocked.Increment(ref _done);
}

/// <summary>A <see cref="LongWork"/> as it stood at one moment.</summary>
public sealed record LongWorkState(Instant StartedAt, string Print, int Done, int Total, bool IsRunning, bool HasFailed, object? Result);

/// <summary>
/// The long pieces of work of this process, by account, garden and question. They are not kept beyond it: what was lost with a restart is
/// asked again. Few run at a time, so that pages stay quick.
/// </summary>
public sealed class LongWorks(IClock clock, IHostApplicationLifetime life, ILogger<LongWorks> log) : IDisposable
{
    private const int MostKept = 500;
    private readonly SemaphoreSlim _turns = new(Math.Max(1, Environment.ProcessorCount / 2));
    private readonly ConcurrentDictionary<LongWorkKey, LongWork> _all = new();
    private readonly Lock _gate = new();

    public LongWork? Find(LongWorkKey key) => _all.GetValueOrDefault(key);

    /// <summary>Begins the work, unless the same is running already.</summary>
    public LongWork Start(LongWorkKey key, string print, Func<LongWork, CancellationToken, Task<object>> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        lock (_gate)
        {
            if (_all.TryGetValue(key, out var same) && same.IsRunning)
                return same;
            MakeRoom();
            var begun = new LongWork(key, print, clock.GetCurrentInstant());
            begun.Outcome = Task.Run(() => InTurnAsync(begun, work, life.ApplicationStopping));
            begun.Outcome.ContinueWith(
                failed => log.LogError(failed.Exception, "Long work {Question} of garden {Garden} failed.", key.Question, key.GardenId),
                CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
            return _all[key] = begun;
        }
    }

    public void Dispose() => _turns.Dispose();

    private async Task<object> InTurnAsync(LongWork begun, Func<LongWork, CancellationToken, Task<object>> work, CancellationToken stopping)
    {
        await _turns.WaitAsync(stopping);
        try
        {
            return await work(begun, stopping);
        }
        finally
        {
            _turns.Release();
        }
    }

    // The oldest that are over go first; what runs stays.
    private void MakeRoom()
    {
        foreach (var old in _all.Values.Where(one => !one.IsRunning).OrderBy(one => one.StartedAt).Take(Math.Max(0, _all.Count - MostKept + 1)).ToList())
            _all.TryRemove(old.Key, out _);
    }
}
