using Dapper;
using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Planning;

/// <summary>Reads and writes the plan of a garden.</summary>
public sealed class PlanStore(Database database)
{
    public async Task<StoredPlan?> FindAsync(Guid gardenId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var body = await connection.QuerySingleOrDefaultAsync<string>("SELECT body FROM plans WHERE garden_id = @gardenId", new { gardenId });
        return body is null ? null : Json.Read<StoredPlan>(body);
    }

    public async Task SaveAsync(Guid gardenId, StoredPlan plan, Instant changedAt, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(
            """
            INSERT INTO plans (garden_id, body, made_for, changed_at) VALUES (@gardenId, @Body, @MadeFor, @changedAt)
            ON CONFLICT (garden_id) DO UPDATE SET body = excluded.body, made_for = excluded.made_for, changed_at = excluded.changed_at
            """,
            new { gardenId, Body = Json.Write(plan), plan.MadeFor, changedAt });
    }
}
