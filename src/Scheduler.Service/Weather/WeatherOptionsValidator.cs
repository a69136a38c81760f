using Microsoft.Extensions.Options;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>Names every fault of the <c>Weather</c> settings at once, so that a host repairs them in one go.</summary>
internal sealed class WeatherOptionsValidator : IValidateOptions<WeatherOptions>
{
    private static readonly Duration ShortestRefresh = Duration.FromMinutes(15);
    private static readonly Duration LongestRetry = Duration.FromMinutes(1);

    public ValidateOptionsResult Validate(string? name, WeatherOptions options)
    {
        var faults = new List<string>();
        foreach (var source in options.Sources.Where(source => !SourceNames.Configurable.Contains(source)))
            faults.Add($"Weather:Sources names '{source}'. Use {string.Join(", ", SourceNames.Configurable)}.");
        if (options.Sources.Distinct().Count() != options.Sources.Count)
            faults.Add("Weather:Sources names a source twice.");
        CheckRefresh(options.RefreshEvery, faults);
        if (WeatherOptions.Parse(options.RetryAfter) is not { } retry || retry > LongestRetry)
            faults.Add($"Weather:RetryAfter is '{options.RetryAfter}'. Use an ISO 8601 duration of at most PT1M, such as PT1S.");
        if (string.IsNullOrWhiteSpace(options.RecordedFolder))
            faults.Add("Weather:RecordedFolder is empty. Name the folder that holds the recorded weather.");
        CheckUrl("Weather:OpenMeteo:ForecastUrl", options.OpenMeteo.ForecastUrl, faults);
        CheckUrl("Weather:OpenMeteo:ArchiveUrl", options.OpenMeteo.ArchiveUrl, faults);
        CheckUrl("Weather:OpenMeteo:GeocodingUrl", options.OpenMeteo.GeocodingUrl, faults);
        CheckUrl("Weather:MetNorway:Url", options.MetNorway.Url, faults);
        if (!IsHeaderText(options.MetNorway.UserAgent ?? ""))
            faults.Add("Weather:MetNorway:UserAgent must be one line of ASCII such as 'my-garden/1.0 me@example.org'.");
        if (!IsHeaderText(options.OpenMeteo.ApiKey ?? ""))
            faults.Add("Weather:OpenMeteo:ApiKey must be one line of ASCII.");
        return faults.Count == 0 ? ValidateOptionsResult.Success : ValidateOptionsResult.Fail(faults);
    }

    private static void CheckRefresh(string text, List<string> faults)
    {
        if (WeatherOptions.Parse(text) is not { } every)
            faults.Add($"Weather:RefreshEvery is '{text}'. Use an ISO 8601 duration such as PT6H.");
        else if (every != Duration.Zero && every < ShortestRefresh)
            faults.Add($"Weather:RefreshEvery is '{text}'. Use at least PT15M, or PT0S to refresh only when asked.");
    }

    private static void CheckUrl(string key, string text, List<string> faults)
    {
        if (!Uri.TryCreate(text, UriKind.Absolute, out var url) || url.Scheme is not ("http" or "https") || url.Query != "" || url.Fragment != "")
            faults.Add($"{key} is '{text}'. Use a full http or https URL without query.");
    }

    private static bool IsHeaderText(string text) => text.All(letter => letter is >= ' ' and <= '~');
}
