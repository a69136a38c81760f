namespace Scheduler.Service.Weather;

/// <summary>The credit each source's license asks for wherever its weather is shown.</summary>
internal static class Attribution
{
    private const string CcBy = "CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/)";

    public static SourceUse Of(string source) => source switch
    {
        SourceNames.OpenMeteo => new(
            source, "Weather data by Open-Meteo.com; adjusted to the garden's height.", CcBy, "https://open-meteo.com/"),
        SourceNames.OpenMeteoArchive => new(
            source,
            "Weather data by Open-Meteo.com, from ERA5 and ERA5-Land; contains modified Copernicus Climate Change Service information; "
            + "adjusted to the garden's height.",
            CcBy, "https://open-meteo.com/"),
        SourceNames.MetNorway => new(
            source, "Data from MET Norway; daily extremes derived from its forecast and adjusted to the garden's height.",
            CcBy, "https://api.met.no/"),
        SourceNames.Reading => new(source, "The owner's own thermometer.", null, ""),
        _ => throw new ArgumentOutOfRangeException(nameof(source), source, "The source has no credit line.")
    };

    /// <summary>Says plainly that recorded weather is not the garden's own.</summary>
    public static SourceUse OfRecorded(RecordedPlace place) => new(
        SourceNames.Recorded,
        $"Invented demonstration weather of the invented place {place.Name}, not this garden's own.", null, "");
}
