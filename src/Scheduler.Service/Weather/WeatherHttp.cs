using System.Net;
using Microsoft.Extensions.Http.Resilience;
using Microsoft.Extensions.Options;
using Polly;
using Polly.CircuitBreaker;
using Polly.RateLimiting;
using Polly.Retry;
using Polly.Timeout;

namespace Scheduler.Service.Weather;

/// <summary>
/// One named client a provider, each with its own pipeline: one request at a time, at most three tries and only for what may pass by
/// itself, a circuit breaker, a time limit an attempt, a limit on the body, and no redirects.
/// </summary>
internal static class WeatherHttp
{
    public const string OpenMeteoClient = "open-meteo";
    public const string PlacesClient = "open-meteo-places";
    public const string MetNorwayClient = "met-norway";

    /// <summary>Set on a request that may take longer than usual.</summary>
    public static readonly HttpRequestOptionsKey<TimeSpan> AttemptTimeout = new("attempt-timeout");

    private const int RetriesAfterFirst = 2;
    private const int WaitingRequests = 1000;
    private static readonly TimeSpan UsualTimeout = TimeSpan.FromSeconds(15);

    public static void AddWeatherHttp(this IServiceCollection services)
    {
        foreach (var name in new[] { OpenMeteoClient, PlacesClient, MetNorwayClient })
        {
            var client = services.AddHttpClient(name, Configure)
                .ConfigurePrimaryHttpMessageHandler(() => new SocketsHttpHandler
                {
                    AllowAutoRedirect = false,
                    AutomaticDecompression = DecompressionMethods.All,
                    PooledConnectionLifetime = TimeSpan.FromMinutes(5)
                });
            client.AddResilienceHandler("pipeline", Build);
            client.AddHttpMessageHandler(() => new BoundedBodyHandler());
        }
    }

    // Attempts have their own limit; a limit over all of them would also count the time spent waiting for a turn.
    private static void Configure(HttpClient client) => client.Timeout = Timeout.InfiniteTimeSpan;

    private static void Build(ResiliencePipelineBuilder<HttpResponseMessage> pipeline, ResilienceHandlerContext context)
    {
        var options = context.ServiceProvider.GetRequiredService<IOptions<WeatherOptions>>().Value;
        pipeline
            .AddConcurrencyLimiter(1, WaitingRequests)
            .AddRetry(new RetryStrategyOptions<HttpResponseMessage>
            {
                MaxRetryAttempts = RetriesAfterFirst,
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                Delay = options.RetryInterval.ToTimeSpan(),
                ShouldHandle = args => ValueTask.FromResult(MayPass(args.Outcome))
            })
            .AddCircuitBreaker(new CircuitBreakerStrategyOptions<HttpResponseMessage>
            {
                FailureRatio = 0.8,
                MinimumThroughput = 9,
                SamplingDuration = TimeSpan.FromMinutes(2),
                BreakDuration = TimeSpan.FromMinutes(1),
                ShouldHandle = args => ValueTask.FromResult(MayPass(args.Outcome))
            })
            .AddTimeout(new TimeoutStrategyOptions
            {
                TimeoutGenerator = args => ValueTask.FromResult(
                    args.Context.GetRequestMessage() is { } request && request.Options.TryGetValue(AttemptTimeout, out var timeout)
                        ? timeout : UsualTimeout)
            });
    }

    // A 400 stays wrong however often it is asked, and a 429 says when to come back: neither is tried again here.
    private static bool MayPass(Outcome<HttpResponseMessage> outcome) => outcome switch
    {
        { Exception: HttpRequestException { HttpRequestError: HttpRequestError.ConfigurationLimitExceeded } } => false,
        { Exception: HttpRequestException or IOException or TimeoutRejectedException } => true,
        {
            Result.StatusCode: HttpStatusCode.InternalServerError or HttpStatusCode.BadGateway or HttpStatusCode.ServiceUnavailable
            or HttpStatusCode.GatewayTimeout
        } => true,
        _ => false
    };

    /// <summary>Why no answer came, in words for the owner, or null when the exception is a bug of ours.</summary>
    public static string? Explain(Exception fault) => fault switch
    {
        BrokenCircuitException => "it failed again and again and is left alone for a minute",
        RateLimiterRejectedException => "too many requests of ours are waiting for it",
        TimeoutRejectedException => "it did not answer in time",
        HttpRequestException { HttpRequestError: HttpRequestError.ConfigurationLimitExceeded } => "its answer is too large",
        HttpRequestException or IOException => "it cannot be reached",
        _ => null
    };

    /// <summary>Reads the body within the attempt's time limit and refuses it when it is too large.</summary>
    private sealed class BoundedBodyHandler : DelegatingHandler
    {
        private const long LargestBody = 20 * 1024 * 1024;

        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancel)
        {
            request.Options.TryGetValue(Attempts, out var attempts);
            request.Options.Set(Attempts, attempts + 1);
            var response = await base.SendAsync(request, cancel);
            await response.Content.LoadIntoBufferAsync(LargestBody, cancel);
            return response;
        }
    }

    /// <summary>How often the request went out; each time counts at the source.</summary>
    public static readonly HttpRequestOptionsKey<int> Attempts = new("attempts");
}
