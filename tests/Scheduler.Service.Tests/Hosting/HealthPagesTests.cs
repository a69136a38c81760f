using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class HealthPagesTests
{
    [Fact]
    public async Task Health_RunningService_IsLiveAndReady()
    {
        using var service = new ServiceFactory();
        using var anonymous = service.Anonymous();
        Assert.Equal("live", (await anonymous.JsonAsync("/health/live")).GetProperty("status").GetString());
        Assert.Equal("ready", (await anonymous.JsonAsync("/health/ready")).GetProperty("status").GetString());
    }

    [Fact]
    public async Task Health_DatabaseWithoutTables_IsLiveButNotReady()
    {
        using var service = new ServiceFactory();
        using var anonymous = service.Anonymous();
        await anonymous.GetAsync("/health/ready");
        await using (var connection = await service.Services.GetRequiredService<Database>().OpenAsync())
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "ALTER TABLE accounts RENAME TO elsewhere";
            await command.ExecuteNonQueryAsync();
        }
        Assert.Equal(HttpStatusCode.OK, (await anonymous.GetAsync("/health/live")).StatusCode);
        using var answer = await anonymous.GetAsync("/health/ready");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }
}
