using System.Data.Common;
using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>Sends in the background: at once when something was raised, else when the next thing falls due, and once a minute in any case.</summary>
public sealed class RoadWorker(NoticeBook notices, RoadRun run, RoadBell bell, IClock clock, ILogger<RoadWorker> log) : BackgroundService
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan Shortest = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            Instant? next = null;
            try
            {
                await notices.CatchUpAsync(stoppingToken);
                next = await run.DrainAsync(stoppingToken);
            }
            catch (DbException fault)
            {
                // A database that is busy or away for a moment must not end all sending; nothing is lost, the next round finds it.
                RoadWorkerMessages.NoRound(log, fault);
            }
            await bell.WaitAsync(Until(next), stoppingToken);
        }
    }

    private TimeSpan Until(Instant? next)
    {
        var wait = next is { } moment ? (moment - clock.GetCurrentInstant()).ToTimeSpan() : Longest;
        return wait < Shortest ? Shortest : wait > Longest ? Longest : wait;
    }
}

internal static partial class RoadWorkerMessages
{
    [LoggerMessage(Level = LogLevel.Error, Message = "A round over the roads broke off")]
    public static partial void NoRound(ILogger log, Exception fault);
}
