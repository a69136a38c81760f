using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.Options;

namespace Scheduler.Service.Hosting;

/// <summary>How often one client address may do what invites abuse (<c>RateLimits</c> in the settings).</summary>
public sealed class RateLimitOptions
{
    /// <summary>Sign-ups in ten minutes. Default 30.</summary>
    [Range(1, 100_000)]
    public int SignUpsPerTenMinutes { get; set; } = 30;

    /// <summary>Wrong access keys or feed addresses in a minute, before the answer becomes 429. Default 30.</summary>
    [Range(1, 100_000)]
    public int WrongSecretsPerMinute { get; set; } = 30;
}

/// <summary>Names of the rate limits and where they are set up.</summary>
public static class RateLimits
{
    public const string SignUp = "sign-up";

    public static void AddRateLimits(this WebApplicationBuilder builder)
    {
        builder.Services.AddOptions<RateLimitOptions>().BindConfiguration("RateLimits").ValidateDataAnnotations().ValidateOnStart();
        builder.Services.AddSingleton<WrongSecrets>();
        builder.Services.AddRateLimiter(_ => { });
        builder.Services.AddOptions<RateLimiterOptions>().Configure<IOptions<RateLimitOptions>>((limiter, options) =>
        {
            limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limiter.OnRejected = async (rejected, _) =>
            {
                SayWhen(rejected.HttpContext, rejected.Lease);
                await ProblemPages.AnswerAsync(rejected.HttpContext, StatusCodes.Status429TooManyRequests, rejected.HttpContext.GetEndpoint());
            };
            limiter.AddPolicy(SignUp, context => Window(ClientAddress.Of(context), options.Value.SignUpsPerTenMinutes, TimeSpan.FromMinutes(10)));
        });
    }

    internal static RateLimitPartition<string> Window(string client, int permits, TimeSpan window) =>
        RateLimitPartition.GetFixedWindowLimiter(client, _ => new FixedWindowRateLimiterOptions { PermitLimit = permits, Window = window, QueueLimit = 0 });

    internal static void SayWhen(HttpContext context, RateLimitLease lease)
    {
        if (lease.TryGetMetadata(MetadataName.RetryAfter, out var wait))
            context.Response.Headers.RetryAfter = Math.Max(1, (int)Math.Ceiling(wait.TotalSeconds)).ToString(CultureInfo.InvariantCulture);
    }
}
