using Dapper;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Tests.Support;

/// <summary>A further access key for the only account of a service, written beside it: the demonstration shows its own on the console alone.</summary>
internal static class DemoKey
{
    private const string Key = "invented-access-key-of-the-test";

    public static async Task<string> MakeAsync(ServiceFactory service)
    {
        using var anonymous = service.Anonymous();
        await anonymous.GetAsync("/health/ready");
        await using var connection = await service.Services.GetRequiredService<Database>().OpenAsync();
        await connection.ExecuteAsync(
            """
            INSERT INTO access_keys (id, account_id, key_hash, label, created_at) SELECT @id, id, @hash, 'Test', created_at FROM accounts WHERE 1 = 1
            ON CONFLICT (key_hash) DO NOTHING
            """,
            new { id = Guid.NewGuid(), hash = Secrets.Hash(Key) });
        return Key;
    }
}
