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
