using System.Collections.Concurrent;
using System.Threading.Channels;
using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Feeds;

/// <summary>
/// Notes when each feed was last fetched and by what kind of app. A poll only leaves word here, at most once a minute a feed; writing
/// happens behind its back, and word is dropped rather than made to wait.
/// </summary>
public sealed class FetchLog(FeedBodies bodies, IClock clock, TimeProvider time, ILogger<FetchLog> log) : BackgroundService
{
    private const int MaxWaiting = 10_000;

    private static readonly TimeSpan Rest = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<Guid, long> _noted = new();
    private readonly Channel<Fetch> _fetches = Channel.CreateBounded<Fetch>(
        new BoundedChannelOptions(MaxWaiting) { FullMode = BoundedChannelFullMode.DropWrite, SingleReader = true });

    /// <param name="userAgent">Looked at for the kind of app, and not kept.</param>
    public void Note(Guid feedId, string userAgent)
    {
        // The service's own clock may be stopped for a demonstration; this one never is.
        var now = time.GetTimestamp();
        if (_noted.TryGetValue(feedId, out var last) && time.GetElapsedTime(last, now) < Rest)
            return;
        _noted[feedId] = now;
        _fetches.Writer.TryWrite(new Fetch(feedId, clock.GetCurrentInstant(), Ids.Of(CalendarApp.KindOf(userAgent))));
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await foreach (var fetch in _fetches.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                await bodies.NoteFetchAsync(fetch.FeedId, fetch.At, fetch.By, stoppingToken);
            }
            catch (System.Data.Common.DbException fault)
            {
                // A note that is lost for a minute is no reason to stop noting.
                FetchLogMessages.NotNoted(log, fault, fetch.FeedId);
            }
        }
    }

    private sealed record Fetch(Guid FeedId, Instant At, string By);
}

internal static partial class FetchLogMessages
{
    [LoggerMessage(Level = LogLevel.Warning, Message = "A fetch of feed {FeedId} could not be noted")]
    public static partial void NotNoted(ILogger log, Exception fault, Guid feedId);
}
