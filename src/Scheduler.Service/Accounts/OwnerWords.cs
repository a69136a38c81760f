using System.Globalization;
using System.Resources;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Accounts;

/// <summary>Words of what goes out to an owner outside of pages, in the language of the account. Texts of the catalog stay in its English.</summary>
public sealed class OwnerWords
{
    public static readonly OwnerWords English = new(CultureInfo.InvariantCulture);

    private static readonly ResourceManager Texts = new("Scheduler.Service.Accounts.OwnerTexts", typeof(OwnerWords).Assembly);

    private readonly CultureInfo _culture;
    private readonly LocalDatePattern _day;
    private readonly LocalDatePattern _dayAndYear;
    private readonly LocalDatePattern _weekday;

    private OwnerWords(CultureInfo culture)
    {
        _culture = culture;
        var day = culture.TwoLetterISOLanguageName == "de" ? "d. MMMM" : "d MMMM";
        _day = LocalDatePattern.Create(day, culture);
        _dayAndYear = LocalDatePattern.Create(day + " uuuu", culture);
        _weekday = LocalDatePattern.Create($"{(culture.TwoLetterISOLanguageName == "de" ? "dddd," : "dddd")} {day}", culture);
    }

    public string Language => _culture.TwoLetterISOLanguageName == "iv" ? OwnerReading.Languages[0] : _culture.TwoLetterISOLanguageName;

    /// <summary>A text; values go in as they are to be read.</summary>
    public string this[string key, params object[] values] =>
        string.Format(CultureInfo.InvariantCulture, Texts.GetString(key, _culture) ?? throw new ArgumentException($"There is no text '{key}'.", nameof(key)), values);

    /// <param name="language">As the account chose; null: it chose none.</param>
    public static OwnerWords Of(string? language)
    {
        if (language is null || language == OwnerReading.Languages[0] || !OwnerReading.Languages.Contains(language))
            return English;
        try
        {
            return new OwnerWords(CultureInfo.GetCultureInfo(language));
        }
        catch (CultureNotFoundException)
        {
            // A machine without locale data knows no language.
            return English;
        }
    }

    public string Day(LocalDate date) => _day.Format(date);

    public string DayAndYear(LocalDate date) => _dayAndYear.Format(date);

    public string Weekday(LocalDate date) => _weekday.Format(date);
}

/// <summary>Finds the words for an account.</summary>
public static class AccountWords
{
    public static async Task<OwnerWords> WordsAsync(this AccountStore accounts, Guid accountId, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(accounts);
        return OwnerWords.Of((await accounts.FindAsync(accountId, cancel))?.Language);
    }
}
