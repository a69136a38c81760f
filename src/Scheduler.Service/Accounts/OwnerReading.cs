using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Accounts;

/// <summary>How an owner reads pages: the units of what is shown, and the language. The API itself speaks °C, mm and English whatever is chosen.</summary>
public static class OwnerReading
{
    /// <summary>°C, mm, m.</summary>
    public const string Metric = "metric";

    /// <summary>°F, inches, feet.</summary>
    public const string Imperial = "imperial";

    public static readonly IReadOnlyList<string> Units = [Metric, Imperial];

    /// <summary>Languages with texts of their own; the first is the one to fall back on.</summary>
    public static readonly IReadOnlyList<string> Languages = ["en", "de"];

    /// <summary>Name, units and language as they are to be; what is not given stays.</summary>
    internal static Account Read(FieldReader fields, Account current) => current with
    {
        Name = fields.Required("name", current.Name, value => value.Text(AccountsApi.MaxName)),
        Units = ReadUnits(fields, current.Units),
        Language = ReadLanguage(fields, current.Language)
    };

    internal static string? ReadUnits(FieldReader fields, string? current) => fields.Optional("units", current, value => value.OneOf([.. Units]));

    internal static string? ReadLanguage(FieldReader fields, string? current) => fields.Optional("language", current, value => value.OneOf([.. Languages]));
}
