using System.Text.Json.Nodes;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Service.Pages.Places;

/// <summary>The form of a garden's settings. Only what its owner changed is sent on, so that what the weather source found is not taken for their word.</summary>
internal static class GardenForm
{
    private static readonly string[] Texts = ["name", "timeZone", "hardinessZone", "firstFrostChoice"];
    private static readonly string[] Numbers = ["latitude", "longitude", "elevationM", "temperatureOffsetC"];
    private static readonly string[] Flags = ["waterAssured", "frostFreeShelter"];

    public static FormState Of(Garden garden, Locale locale) => FormState.With(
        ("name", garden.Name), ("latitude", Plain(garden.Latitude, locale)), ("longitude", Plain(garden.Longitude, locale)),
        ("elevationM", OwnerUnits.Height(locale, garden.ElevationM)), ("timeZone", garden.TimeZone), ("hardinessZone", garden.HardinessZone),
        ("temperatureOffsetC", OwnerUnits.Difference(locale, garden.TemperatureOffsetC)), ("firstFrostChoice", garden.FirstFrostChoice),
        ("waterAssured", Flag(garden.WaterAssured)), ("frostFreeShelter", Flag(garden.FrostFreeShelter)));

    /// <summary>What was changed, in the API's words and units.</summary>
    /// <param name="shown">The form as it was handed out.</param>
    public static JsonObject Changes(FormBody form, FormState shown, Locale locale)
    {
        var json = form.Json(locale.Culture, blankClears: true).Text(Texts).Number(Numbers).Flag(Flags).Object;
        foreach (var name in Texts.Concat(Numbers).Concat(Flags))
        {
            if (form[name] == shown.Value(name))
                json.Remove(name);
        }
        return json.HeightToApi(locale, "elevationM").DifferenceToApi(locale, "temperatureOffsetC");
    }

    private static string Plain(double degrees, Locale locale) => degrees.ToString("0.#####", locale.Culture);

    private static string? Flag(bool? flag) => flag switch { true => "true", false => "false", null => null };
}
