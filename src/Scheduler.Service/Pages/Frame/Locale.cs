using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Accounts;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// How an owner reads dates and numbers. The culture of the process stays invariant, so that calendars, JSON and CSV never depend on who
/// asked; pages format through this instead.
/// </summary>
public sealed partial class Locale
{
    public const string LanguageCookie = "language";
    public const string UnitsCookie = "units";
    public const string Metric = OwnerReading.Metric;
    public const string Imperial = OwnerReading.Imperial;

    public static readonly IReadOnlyList<string> Languages = OwnerReading.Languages;

    private const int HalfYear = 180;

    private readonly LocalDatePattern _day;
    private readonly LocalDatePattern _dayAndYear;
    private readonly LocalDatePattern _weekday;
    private readonly LocalDatePattern _month;

    public Locale(CultureInfo culture, string units)
    {
        ArgumentNullException.ThrowIfNull(culture);
        Culture = culture;
        Units = units;
        // "25 Nov", "25. Nov" or "Nov 25", as the culture orders month and day.
        var monthDay = culture.DateTimeFormat.MonthDayPattern;
        var day = !monthDay.StartsWith('d') ? "MMM d" : monthDay.StartsWith("d.", StringComparison.Ordinal) ? "d. MMM" : "d MMM";
        var comma = day[0] == 'M' || culture.TwoLetterISOLanguageName == "de" ? "," : "";
        _day = LocalDatePattern.Create(day, culture);
        _weekday = LocalDatePattern.Create($"ddd{comma} {day}", culture);
        _dayAndYear = LocalDatePattern.Create(day[0] == 'M' ? $"{day}, uuuu" : $"{day} uuuu", culture);
        _month = LocalDatePattern.Create("MMMM uuuu", culture);
    }

    public CultureInfo Culture { get; }

    /// <summary><c>metric</c> or <c>imperial</c>.</summary>
    public string Units { get; }

    public bool IsImperial => Units == Imperial;

    public string Language => Languages.Contains(Culture.TwoLetterISOLanguageName) ? Culture.TwoLetterISOLanguageName : Languages[0];

    /// <param name="units">What the signed-in account chose; null: nothing, or nobody is signed in. The same with the language.</param>
    public static Locale Of(HttpRequest request, string? units = null, string? language = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        var asked = (language ?? request.Cookies[LanguageCookie]) is { } chosen && Languages.Contains(chosen)
            ? [chosen]
            : request.GetTypedHeaders().AcceptLanguage.OrderByDescending(language => language.Quality ?? 1).Select(language => language.Value.ToString());
        // A region of the same language keeps the dates of that region under a chosen language.
        // A machine without locale data (invariant mode) knows no culture at all.
        var culture = Known(asked) ?? Known(Languages) ?? CultureInfo.InvariantCulture;
        units ??= request.Cookies[UnitsCookie] ?? (culture.Name == "en-US" ? Imperial : Metric);
        return new Locale(culture, units == Imperial ? Imperial : Metric);
    }

    /// <summary>Day and month, with the year where it could be mistaken.</summary>
    public string Day(LocalDate date, LocalDate today) => (date.Year == today.Year || Math.Abs(Period.DaysBetween(today, date)) < HalfYear ? _day : _dayAndYear).Format(date);

    public string Date(LocalDate date) => _dayAndYear.Format(date);

    public string Weekday(LocalDate date) => _weekday.Format(date);

    public string Month(LocalDate date) => _month.Format(date);

    /// <summary>A month in three letters or so.</summary>
    public string ShortMonth(LocalDate date) => LocalDatePattern.Create("MMM", Culture).Format(date);

    /// <summary>Date and time of day, to the minute.</summary>
    public string Moment(LocalDateTime moment) => $"{Date(moment.Date)}, {LocalTimePattern.Create("t", Culture).Format(moment.TimeOfDay)}";

    public string Number(double value, int decimals = 0) => Math.Round(value, decimals).ToString($"N{decimals}", Culture);

    /// <summary>A temperature [C] in the owner's unit.</summary>
    public string Temperature(double celsius, int decimals = 0) =>
        IsImperial ? $"{Number(celsius * 9 / 5 + 32, decimals)} °F" : $"{Number(celsius, decimals)} °C";

    /// <summary>
    /// A text of the catalog or of a rule, which speaks of C, with its temperatures in the owner's unit. Bases of degree-days stay in C, as the
    /// sum beside them does.
    /// </summary>
    public string Told(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!text.Contains(" C", StringComparison.Ordinal) && !text.Contains(" mm", StringComparison.Ordinal))
            return text;
        text = Degrees().Replace(text, found => !IsImperial || found.Groups["base"].Success
            ? $"{found.Value[..^1]}°C"
            : $"{Fahrenheit(found.Groups["from"].Value)}{(found.Groups["to"].Success ? $"{found.Groups["join"].Value}{Fahrenheit(found.Groups["to"].Value)}" : "")} °F");
        return IsImperial ? Evaporation().Replace(text, found => $"{found.Groups[1].Value}{Rain(double.Parse(found.Groups[2].Value, CultureInfo.InvariantCulture))}") : text;
    }

    private string Fahrenheit(string celsius) => Number(double.Parse(celsius, NumberStyles.Float, CultureInfo.InvariantCulture) * 9 / 5 + 32);

    [GeneratedRegex(@"(?<base>(?:degree-days|Heat) above )?(?<![\w.])(?<from>[-+]?\d+(?:\.\d+)?)(?:(?<join>-| to )(?<to>[-+]?\d+(?:\.\d+)?))? C\b")]
    private static partial Regex Degrees();

    [GeneratedRegex(@"(evaporation )(\d+(?:\.\d+)?) mm\b")]
    private static partial Regex Evaporation();

    /// <summary>A depth of rain [mm] in the owner's unit.</summary>
    public string Rain(double mm) => IsImperial ? $"{Number(mm / 25.4, 2)} in" : $"{Number(mm, 1)} mm";

    /// <summary>A height above the sea [m] in the owner's unit.</summary>
    public string Height(double metres) => IsImperial ? $"{Number(metres / 0.3048)} ft" : $"{Number(metres)} m";

    /// <summary>Minutes as hours and minutes.</summary>
    public static string Minutes(int minutes) => minutes < 60 ? $"{minutes} min" : minutes % 60 == 0 ? $"{minutes / 60} h" : $"{minutes / 60} h {minutes % 60} min";

    private static CultureInfo? Known(IEnumerable<string> asked)
    {
        foreach (var name in asked)
        {
            if (Languages.Contains(name.Split('-')[0].ToLowerInvariant()) && Culture(name) is { } culture)
                return culture;
        }
        return null;

        static CultureInfo? Culture(string name)
        {
            try
            {
                var culture = CultureInfo.GetCultureInfo(name);
                return culture.IsNeutralCulture || culture.ThreeLetterWindowsLanguageName != "ZZZ" ? culture : CultureInfo.GetCultureInfo(name.Split('-')[0]);
            }
            catch (CultureNotFoundException)
            {
                return null;
            }
        }
    }
}
