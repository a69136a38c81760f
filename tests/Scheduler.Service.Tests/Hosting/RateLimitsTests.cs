using System.Net;
using System.Net.Http.Json;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class RateLimitsTests
{
    [Fact]
    public async Task SignUp_TooOften_IsHeldUpWithATimeToWait()
    {
        using var service = new ServiceFactory().With("RateLimits:SignUpsPerTenMinutes", "3");
        using var anonymous = service.Anonymous();
        for (var i = 0; i < 3; i++)
            Assert.Equal(HttpStatusCode.Created, (await anonymous.PostAsJsonAsync("/api/v1/accounts", new { name = "A" })).StatusCode);
        using var refused = await anonymous.PostAsJsonAsync("/api/v1/accounts", new { name = "A" });
        Assert.Equal(HttpStatusCode.TooManyRequests, refused.StatusCode);
        Assert.Equal("application/problem+json", refused.Content.Headers.ContentType?.MediaType);
        Assert.InRange(refused.Headers.RetryAfter!.Delta!.Value.TotalSeconds, 1, 600);
    }

    [Fact]
    public async Task WrongKey_TooOften_IsHeldUpButRightKeysAreNot()
    {
        using var service = new ServiceFactory().With("RateLimits:WrongSecretsPerMinute", "5");
        using var owner = await service.SignUpAsync();
        using var guesser = service.WithKey("key_guess");
        var statuses = new List<HttpStatusCode>();
        for (var i = 0; i < 8; i++)
            statuses.Add((await guesser.GetAsync("/api/v1/gardens")).StatusCode);
        Assert.Equal(5, statuses.Count(status => status is HttpStatusCode.Unauthorized));
        Assert.Equal(3, statuses.Count(status => status is HttpStatusCode.TooManyRequests));
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync("/api/v1/gardens")).StatusCode);
    }

    [Fact]
    public async Task Setting_OutOfRange_RefusesToStart()
    {
        using var service = new ServiceFactory().With("RateLimits:SignUpsPerTenMinutes", "0");
        await Assert.ThrowsAnyAsync<Exception>(() => service.SignUpAsync());
    }
}
