using Dapper;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Gardens;

/// <summary>Removes a garden with all that belongs to it. Its announced windows stay behind as withdrawn, so that calendars take them off.</summary>
public sealed class GardenRemoval(Database database, GardenFollowers followers, IClock clock)
{
    /// <summary>Longer than any feed shows a withdrawn window.</summary>
    private static readonly Duration Kept = Duration.FromDays(60);

    /// <summary>False if the account has no such garden.</summary>
    public async Task<bool> RemoveAsync(Guid accountId, Guid gardenId, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        await using (var connection = await database.OpenAsync(cancel))
        {
            await using var transaction = await database.BeginAsync(connection, cancel);
            var withdrawn = WindowDiff.WithdrawAll(
                await WindowStore.OfGardenAsync(connection, transaction, gardenId), new Reason("garden-gone", "The garden was removed."), now);
            if (await connection.ExecuteAsync("DELETE FROM gardens WHERE id = @gardenId AND account_id = @accountId", new { gardenId, accountId }, transaction) == 0)
                return false;
            await connection.ExecuteAsync(
                """
                INSERT INTO former_windows (id, account_id, garden_id, body, growth_year, sequence, changed_at, withdrawn_at)
                VALUES (@Id, @accountId, @gardenId, @Body, @Year, @Sequence, @ChangedAt, @WithdrawnAt)
                """,
                withdrawn.Select(window => new
                {
                    window.Id, accountId, gardenId, Body = Json.Write(window.Body), window.Key.Year, window.Sequence, window.ChangedAt, window.WithdrawnAt
                }),
                transaction);
            await connection.ExecuteAsync("DELETE FROM former_windows WHERE withdrawn_at < @oldest", new { oldest = now - Kept }, transaction);
            await transaction.CommitAsync(cancel);
        }
        await followers.RebuildFeedsAsync(accountId);
        return true;
    }
}
