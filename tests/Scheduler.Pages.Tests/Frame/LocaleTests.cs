using System.Globalization;
using NodaTime;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Pages.Tests.Frame;

public sealed class LocaleTests
{
    private static readonly LocalDate Today = new(2026, 11, 25);

    [Theory]
    [InlineData("en-GB", "25 Nov", "Wed 25 Nov", "25 Nov 2026")]
    [InlineData("en-US", "Nov 25", "Wed, Nov 25", "Nov 25, 2026")]
    [InlineData("de-DE", "25. Nov", "Mi, 25. Nov", "25. Nov 2026")]
    public void Dates_AreWrittenAsTheCultureOrdersThem(string culture, string day, string weekday, string date)
    {
        var locale = new Locale(CultureInfo.GetCultureInfo(culture), Locale.Metric);
        // Some releases of the locale data end short months with a point.
        Assert.Equal(day, locale.Day(Today, Today).TrimEnd('.'));
        Assert.Equal(weekday, locale.Weekday(Today).TrimEnd('.').Replace("Mi.", "Mi", StringComparison.Ordinal));
        Assert.Equal(date, locale.Date(Today).Replace("Nov.", "Nov", StringComparison.Ordinal));
        Assert.Contains("2028", locale.Day(new LocalDate(2028, 1, 2), Today), StringComparison.Ordinal);
        Assert.DoesNotContain("2027", locale.Day(new LocalDate(2027, 1, 2), Today), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("The bench may fall to -1.3 C; opened growth needs more than 1 C.", "The bench may fall to 30 °F; opened growth needs more than 34 °F.", "The bench may fall to -1.3 °C; opened growth needs more than 1 °C.")]
    [InlineData("Into still, damp air at -2 to +5 C with light.", "Into still, damp air at 28 to 41 °F with light.", "Into still, damp air at -2 to +5 °C with light.")]
    [InlineData("Into a bright place above 12-15 C.", "Into a bright place above 54-59 °F.", "Into a bright place above 12-15 °C.")]
    [InlineData("80-120 degree-days above 5 C since buds opened", "80-120 degree-days above 5 °C since buds opened", "80-120 degree-days above 5 °C since buds opened")]
    [InlineData("index 2.0 (reference evaporation 2.54 mm)", "index 2.0 (reference evaporation 0.10 in)", "index 2.0 (reference evaporation 2.54 mm)")]
    [InlineData("Only dead wood and twigs under 5 mm. Plan C is none.", "Only dead wood and twigs under 5 mm. Plan C is none.", "Only dead wood and twigs under 5 mm. Plan C is none.")]
    public void Told_TurnsTemperaturesOfATextIntoTheOwnersUnit(string text, string imperial, string metric)
    {
        Assert.Equal(imperial, new Locale(CultureInfo.GetCultureInfo("en-US"), Locale.Imperial).Told(text));
        Assert.Equal(metric, new Locale(CultureInfo.GetCultureInfo("en-GB"), Locale.Metric).Told(text));
    }

    [Fact]
    public void Measures_FollowTheOwnersUnits()
    {
        var german = new Locale(CultureInfo.GetCultureInfo("de-DE"), Locale.Metric);
        var american = new Locale(CultureInfo.GetCultureInfo("en-US"), Locale.Imperial);
        Assert.Equal("-2,5 °C", german.Temperature(-2.5, 1));
        Assert.Equal("28 °F", american.Temperature(-2.5));
        Assert.Equal("12,7 mm", german.Rain(12.7));
        Assert.Equal("0.50 in", american.Rain(12.7));
        Assert.Equal("1.200 m", german.Height(1200));
        Assert.Equal("3,937 ft", american.Height(1200));
    }
}
