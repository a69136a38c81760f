using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Weather;

/// <summary>What a call is for: each has its own share of the day, so that new gardens and daily refreshes cannot starve each other.</summary>
internal enum CallPurpose
{
    Refresh,
    Backfill,
}

/// <summary>
/// Our own count of what the free Open-Meteo hosts allow one address: 600 calls a minute, 5,000 an hour, 10,000 a day, by weight.
/// Kept in the database, so that a restart forgets nothing. Windows are fixed, as at the source: the minute, the hour and the day in UTC.
/// </summary>
/// <remarks>Limits: source code of the service, as published; a tenth is left as safety, since it counts after and we before the call.</remarks>
internal sealed class CallBudget(Database database, IClock clock)
{
    private const double MinuteLimit = 450;
    private const double HourLimit = 4500;
    private const double DayLimit = 9000;
    private const double RefreshDayLimit = 7500;
    private const double BackfillDayLimit = 6000;
    private const string Blocked = "blocked";

    private readonly SemaphoreSlim _turn = new(1);

    /// <summary>Counts the call and answers null, or counts nothing and answers from when there is room again.</summary>
    /// <param name="limited">False for who has a plan without limits: then only a block holds the call back.</param>
    public async Task<Instant?> TakeAsync(string source, double weight, CallPurpose purpose, bool limited, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var windows = WindowsAt(now, purpose);
        await _turn.WaitAsync(cancel);
        try
        {
            await using var connection = await database.OpenAsync(cancel);
            await using var transaction = await database.BeginAsync(connection, cancel);
            var rows = (await connection.QueryAsync<Row>(new CommandDefinition(
                "SELECT period, starts_at, weight FROM call_budget WHERE source = @source",
                new { source }, transaction, cancellationToken: cancel)))
                .ToDictionary(row => row.Period);
            if (rows.TryGetValue(Blocked, out var block) && block.StartsAt > now)
                return block.StartsAt;
            foreach (var window in limited ? windows : [])
            {
                var used = rows.TryGetValue(window.Period, out var row) && row.StartsAt == window.Start ? row.Weight : 0;
                // An empty window lets even an oversized call through, or it would wait for ever.
                if (used > 0 && used + weight > window.Limit)
                    return window.End;
            }
            await AddAsync(connection, transaction, source, weight, windows, cancel);
            await transaction.CommitAsync(cancel);
            return null;
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <summary>Counts what has already been sent, such as a repeated request.</summary>
    public async Task ChargeAsync(string source, double weight, CallPurpose purpose, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            await using var connection = await database.OpenAsync(cancel);
            await using var transaction = await database.BeginAsync(connection, cancel);
            await AddAsync(connection, transaction, source, weight, WindowsAt(clock.GetCurrentInstant(), purpose), cancel);
            await transaction.CommitAsync(cancel);
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <summary>No call before then; an earlier block that lasts longer stays.</summary>
    public async Task BlockAsync(string source, Instant until, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(new CommandDefinition(
            """
            INSERT INTO call_budget (source, period, starts_at, weight) VALUES (@source, @Blocked, @until, 0)
            ON CONFLICT (source, period) DO UPDATE SET starts_at = excluded.starts_at WHERE call_budget.starts_at < excluded.starts_at
            """,
            new { source, Blocked, until }, cancellationToken: cancel));
    }

    private static async Task AddAsync(
        DbConnection connection, DbTransaction transaction, string source, double weight, Window[] windows, CancellationToken cancel)
    {
        const string sql =
            """
            INSERT INTO call_budget (source, period, starts_at, weight) VALUES (@source, @Period, @Start, @weight)
            ON CONFLICT (source, period) DO UPDATE SET
                weight = CASE WHEN call_budget.starts_at = excluded.starts_at THEN call_budget.weight + excluded.weight ELSE excluded.weight END,
                starts_at = excluded.starts_at
            """;
        var rows = windows.Select(window => new { source, window.Period, window.Start, weight });
        await connection.ExecuteAsync(new CommandDefinition(sql, rows, transaction, cancellationToken: cancel));
    }

    private static Window[] WindowsAt(Instant now, CallPurpose purpose)
    {
        var time = now.InUtc().LocalDateTime;
        var minute = time.Date.At(new LocalTime(time.Hour, time.Minute)).InUtc().ToInstant();
        var hour = time.Date.At(new LocalTime(time.Hour, 0)).InUtc().ToInstant();
        var day = time.Date.AtMidnight().InUtc().ToInstant();
        var ofPurpose = purpose == CallPurpose.Refresh ? RefreshDayLimit : BackfillDayLimit;
        return
        [
            new("minute", minute, minute + Duration.FromMinutes(1), MinuteLimit),
            new("hour", hour, hour + Duration.FromHours(1), HourLimit),
            new("day", day, day + Duration.FromDays(1), DayLimit),
            new(purpose == CallPurpose.Refresh ? "day-refresh" : "day-backfill", day, day + Duration.FromDays(1), ofPurpose)
        ];
    }

    private sealed record Window(string Period, Instant Start, Instant End, double Limit);

    private sealed class Row
    {
        public required string Period { get; init; }
        public required Instant StartsAt { get; init; }
        public required double Weight { get; init; }
    }
}
