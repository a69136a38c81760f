using System.Globalization;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Numbers;

namespace Scheduler.Pages.Tests.Numbers;

/// <summary>
/// Figures of the catalog in the owner's units. Factors: NIST Special Publication 811 (2008), appendix B.8 and B.9: t/°F = 1.8 t/°C + 32, one degree Celsius of a
/// difference is 1.8 degrees Fahrenheit, one inch is 25.4 mm.
/// </summary>
public sealed class FigureRowsTests
{
    private static readonly Locale German = new(CultureInfo.GetCultureInfo("de-DE"), Locale.Metric);
    private static readonly Locale American = new(CultureInfo.GetCultureInfo("en-US"), Locale.Imperial);

    [Fact]
    public void Temperatures_AreMoved_AndDegreeDaysAreNot()
    {
        var part = new
        {
            airLowC = new Figure(-26, Provenance.FromMemory, Note: "below -30 C no more"), budBreakCd = new Figure(105, Provenance.Estimate, Low: 90, High: 120.5),
            shootCm = new Figure(2.54, Provenance.Estimate), chillPortions = new Figure(40, Provenance.Estimate)
        };
        Assert.Equal(
            ["air low: -26 °C", "bud break: 105 °C·d (90 to 120,5)", "shoot: 2,54 cm", "chill portions: 40"], FigureRows.Of(part, German).Select(row => $"{row.Name}: {row.Value}"));
        var rows = FigureRows.Of(part, American);
        Assert.Equal(["air low: -14.8 °F", "bud break: 189 °F·d (162 to 217)", "shoot: 1 in", "chill portions: 40"], rows.Select(row => $"{row.Name}: {row.Value}"));
        Assert.Equal("below -22 °F no more", rows[0].Source);
    }

    [Fact]
    public void Rules_NameTheUnitsOfWhatTheyAskFor()
    {
        var rule = new
        {
            opens = new Dictionary<string, object> { ["heatCd"] = new { @base = 5, min = 120, max = 200, from = "work:tip-pinch" } },
            closes = new { nightMinBelowC = 10 }, provenance = "estimate"
        };
        Assert.Equal("opens heat base 5 °C, min 120 °C·d, max 200 °C·d, from work:tip-pinch; closes night min below 10 °C", Assert.Single(FigureRows.Of(rule, German)).Value);
        Assert.Equal("opens heat base 41 °F, min 216 °F·d, max 360 °F·d, from work:tip-pinch; closes night min below 50 °F", Assert.Single(FigureRows.Of(rule, American)).Value);
    }
}
