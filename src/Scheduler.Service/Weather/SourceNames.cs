namespace Scheduler.Service.Weather;

/// <summary>The ids by which settings, stored days and answers name where weather comes from.</summary>
internal static class SourceNames
{
    public const string OpenMeteo = "open-meteo";
    public const string OpenMeteoArchive = "open-meteo-archive";
    public const string MetNorway = "met-norway";
    public const string Recorded = "recorded";
    public const string Reading = "reading";

    /// <summary>What may stand in <c>Weather:Sources</c>.</summary>
    public static readonly string[] Configurable = [OpenMeteo, MetNorway, Recorded];
}
