using System.Collections.Concurrent;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class TelemetryTests
{
    private const string Token = "T0kenThatMustNotBeSeenAnywhereElse0123456789";

    [Fact]
    public async Task Secrets_AtTheMostTalkativeLevel_AreInNoLogAndNoMetric()
    {
        var log = new Listener();
        using var service = new ServiceFactory { Replacing = services => services.AddSingleton<ILoggerProvider>(log) }
            .With("Logging:LogLevel:Default", "Trace").With("Logging:LogLevel:Microsoft.AspNetCore", "Trace")
            .With("Logging:LogLevel:Microsoft.AspNetCore.Hosting.Diagnostics", "Trace");
        using var owner = await service.SignUpAsync();
        using var guesser = service.WithKey($"key_{Token}");
        await guesser.GetAsync("/api/v1/gardens");
        await owner.GetAsync($"/calendars/{Token}.ics");
        await owner.GetAsync($"/api/v1/calendars/{Token}.ics?key={Token}");
        await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var metrics = await owner.GetStringAsync("/metrics");
        Assert.Contains("http_server_request_duration", metrics, StringComparison.Ordinal);
        Assert.DoesNotContain(Token, metrics, StringComparison.Ordinal);
        Assert.Contains(log.Lines, line => line.Contains("POST /api/v1/gardens 201", StringComparison.Ordinal));
        var key = owner.DefaultRequestHeaders.Authorization!.Parameter!;
        Assert.All(log.Lines, line => Assert.False(line.Contains(Token, StringComparison.Ordinal) || line.Contains(key, StringComparison.Ordinal), line));
    }

    private sealed class Listener : ILoggerProvider
    {
        public ConcurrentQueue<string> Lines { get; } = new();

        public ILogger CreateLogger(string categoryName) => new Ear(Lines, categoryName);

        public void Dispose()
        {
        }

        private sealed class Ear(ConcurrentQueue<string> lines, string category) : ILogger
        {
            public IDisposable? BeginScope<TState>(TState state) where TState : notnull
            {
                lines.Enqueue($"{category} scope {state}");
                return null;
            }

            public bool IsEnabled(LogLevel logLevel) => true;

            public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
                lines.Enqueue($"{category} {formatter(state, exception)} {exception}");
        }
    }
}
