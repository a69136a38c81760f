using System.Data.Common;
using Dapper;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Hosting;

/// <summary>Whether the program runs (<c>/health/live</c>) and whether it can work (<c>/health/ready</c>).</summary>
public static class HealthPages
{
    public static void AddHealth(this WebApplicationBuilder builder) =>
        builder.Services.AddHealthChecks().AddCheck<DatabaseCheck>("database");

    public static void MapHealth(this WebApplication app)
    {
        app.MapGet("/health/live", () => TypedResults.Ok(new HealthAnswer("live", new Dictionary<string, string>()))).WithTags("health").AllowAnonymous();
        app.MapGet("/health/ready", ReadyAsync).WithTags("health").AllowAnonymous()
            .Produces<HealthAnswer>().ProducesProblem(StatusCodes.Status503ServiceUnavailable);
    }

    private static async Task<IResult> ReadyAsync(HealthCheckService health, CancellationToken cancel)
    {
        var report = await health.CheckHealthAsync(cancel);
        if (report.Status is HealthStatus.Unhealthy)
        {
            var failed = report.Entries.Where(entry => entry.Value.Status is HealthStatus.Unhealthy).Select(entry => entry.Key);
            return Problems.Of(StatusCodes.Status503ServiceUnavailable, $"Not ready: {string.Join(", ", failed)}.");
        }
        return TypedResults.Ok(new HealthAnswer("ready", report.Entries.ToDictionary(entry => entry.Key, entry => entry.Value.Status.ToString().ToLowerInvariant())));
    }

    /// <summary>Reads a row through the tables that the migrations make.</summary>
    private sealed class DatabaseCheck(Database database) : IHealthCheck
    {
        public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
        {
            try
            {
                await using var connection = await database.OpenAsync(cancellationToken);
                await connection.ExecuteScalarAsync<long>("SELECT COUNT(*) FROM (SELECT id FROM accounts LIMIT 1) one");
                return HealthCheckResult.Healthy();
            }
            catch (DbException fault)
            {
                return HealthCheckResult.Unhealthy("The database cannot be read.", fault);
            }
        }
    }
}

public sealed record HealthAnswer(string Status, IReadOnlyDictionary<string, string> Checks);
