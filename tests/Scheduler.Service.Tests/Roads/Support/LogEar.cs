using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace Scheduler.Service.Tests.Roads.Support;

/// <summary>Hears every line of the log at the most talkative level, with scopes and exceptions.</summary>
internal sealed class LogEar : ILoggerProvider
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
