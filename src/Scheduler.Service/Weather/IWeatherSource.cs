using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>A provider of daily weather over the network. It never throws for what the other side does wrong.</summary>
internal interface IWeatherSource
{
    /// <summary>Its id in <c>Weather:Sources</c>.</summary>
    string Name { get; }

    /// <summary>The days around today, as many days back as asked where the source has them.</summary>
    Task<WeatherAnswer> ForecastAsync(WeatherCell cell, int pastDays, CancellationToken cancel);
}

/// <summary>How a question to a source ended.</summary>
internal abstract record WeatherAnswer
{
    private WeatherAnswer()
    {
    }

    /// <summary>Days fit to be stored, and those that were not.</summary>
    /// <param name="ElevationM">The height the temperatures hold for.</param>
    public sealed record Got(IReadOnlyList<SourceDay> Days, IReadOnlyList<RefusedDay> Refused, double? ElevationM) : WeatherAnswer
    {
        /// <summary>Set by a source that says how long its answer holds.</summary>
        public Instant? ExpiresAt { get; init; }

        public string? LastModified { get; init; }
    }

    /// <summary>What is stored is still the newest there is.</summary>
    public sealed record Unchanged(Instant? ExpiresAt) : WeatherAnswer;

    /// <param name="Reason">In words for the owner.</param>
    /// <param name="RetryAt">Not to be asked before; null when the next regular round will do.</param>
    public sealed record Failed(string Reason, Instant? RetryAt = null) : WeatherAnswer;
}
