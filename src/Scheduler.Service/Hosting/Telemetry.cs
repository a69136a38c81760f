using Microsoft.Extensions.Options;
using OpenTelemetry.Metrics;

namespace Scheduler.Service.Hosting;

/// <summary>
/// Metrics and the log. Neither ever holds a path as it was asked for, because a feed's path is its secret: metrics carry the route's
/// pattern, the framework's own request log is silenced, and <see cref="RequestLog"/> writes the pattern in its place.
/// </summary>
public static class Telemetry
{
    private const string Framework = "Microsoft.AspNetCore";

    // Opens a log scope with the request's path unless it is shut off altogether.
    private const string Requests = "Microsoft.AspNetCore.Hosting.Diagnostics";

    // Says nothing that the request log does not say.
    private const string Authentication = "Scheduler.Service.Accounts.BearerKeys";

    public static void AddTelemetry(this WebApplicationBuilder builder)
    {
        builder.Services.AddOpenTelemetry().WithMetrics(metrics => metrics
            .AddAspNetCoreInstrumentation()
            .AddHttpClientInstrumentation()
            .AddRuntimeInstrumentation()
            // It counts by the names that are looked up, and owners name hosts of theirs.
            .AddView("dns.lookup.duration", MetricStreamConfiguration.Drop)
            .AddPrometheusExporter());
        builder.Services.AddSingleton<IPostConfigureOptions<LoggerFilterOptions>, QuietFramework>();
    }

    public static void MapTelemetry(this WebApplication app) => app.MapPrometheusScrapingEndpoint("/metrics").AllowAnonymous();

    /// <summary>Whatever the settings ask for, the framework's categories that write request paths stay at warnings.</summary>
    private sealed class QuietFramework : IPostConfigureOptions<LoggerFilterOptions>
    {
        public void PostConfigure(string? name, LoggerFilterOptions options)
        {
            var providers = options.Rules.Select(rule => rule.ProviderName).Append(null).Distinct().ToList();
            foreach (var rule in options.Rules.Where(rule => rule.CategoryName?.StartsWith(Framework, StringComparison.OrdinalIgnoreCase) == true).ToList())
                options.Rules.Remove(rule);
            foreach (var provider in providers)
            {
                options.Rules.Add(new LoggerFilterRule(provider, Framework, LogLevel.Warning, null));
                options.Rules.Add(new LoggerFilterRule(provider, Requests, LogLevel.None, null));
                options.Rules.Add(new LoggerFilterRule(provider, Authentication, LogLevel.Warning, null));
            }
        }
    }
}
