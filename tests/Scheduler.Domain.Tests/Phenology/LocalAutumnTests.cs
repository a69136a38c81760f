using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class LocalAutumnTests
{
    private static readonly LocalDate Today = new(2020, 3, 10);
    private static readonly SiteWeather Site = MadeWeather.Temperate.Site(new LocalDate(1995, 9, 1), Today, Today);
    private static readonly SeasonEnsemble Season = SeasonEnsemble.Build(Site, Site.CurrentYear);
    private static readonly GrowthScale Maple = Plants.Scale(Plants.Maple);

    [Fact]
    public void Fit_NothingSeen_IsTheRuleWithItsError()
    {
        var autumn = Fit();

        Assert.Equal((null, 8.0, 0), (autumn.UsualDay, autumn.SpreadDays, autumn.Autumns));
        Assert.All(Season.Members, member => Assert.Equal(Autumn.DayOf(95, Maple, Season, member), autumn.DayOf(95, Maple, Season, member)));
    }

    [Fact]
    public void AtSite_NothingSeen_IsTheMedianOfTheRuleShiftedByCooling()
    {
        var autumn = Fit().AtSite(Maple, Season);
        var ruled = Season.Normals.Select(year => Autumn.DayOf(95, Maple, Season, year)).Order().ToList();

        Assert.Equal(24, ruled.Count);
        Assert.Equal((ruled[11] + ruled[12]) / 2, autumn.UsualDay!.Value, 9);
        Assert.Equal(8.0, autumn.SpreadDays);
        Assert.Equal(autumn.UsualDay.Value, Season.Normals.Average(year => autumn.DayOf(95, Maple, Season, year)), 6);
        Assert.Same(autumn, autumn.AtSite(Maple, Season));
    }

    // One date counts 1 / 36, the rule 1 / 64: 0.64 of the way from the rule to the date. The error left is sqrt(36 + 1 / (1/36 + 1/64)) = 7.68.
    [Fact]
    public void Fit_OneAutumn_GoesPartOfTheWay()
    {
        var rule = RuleDay(2019);
        var autumn = Fit(new SeenPhase(95, new GrowthYear(2019, Hemisphere.North).DateOf((int)rule - 20)));

        Assert.Equal(rule - 0.64 * 20, autumn.UsualDay!.Value, 6);
        Assert.Equal(7.68, autumn.SpreadDays, 2);
        Assert.True(Likely(autumn) < Likely(Fit()));
    }

    [Fact]
    public void Fit_ManyAutumns_GoesNearlyAllTheWay()
    {
        var early = Enumerable.Range(2005, 15).Select(year => new SeenPhase(95, new LocalDate(year, 10, 20))).ToArray();

        Assert.InRange(Fit(early).UsualDay!.Value, Season.Year.DayOf(new LocalDate(2020, 10, 19)), Season.Year.DayOf(new LocalDate(2020, 10, 24)));
        Assert.Equal(15, Fit(early).Autumns);
        Assert.InRange(Fit(early).SpreadDays, 6, 6.3);
    }

    // Color stands 20 days, the end 10 days from half the leaves down: the same usual date.
    [Fact]
    public void Fit_AnyCode_TellsOfTheSameAutumn()
    {
        var half = Fit(new SeenPhase(95, new LocalDate(2019, 11, 1)));

        Assert.Equal(half.UsualDay, Fit(new SeenPhase(92, new LocalDate(2019, 10, 12))).UsualDay);
        Assert.Equal(half.UsualDay, Fit(new SeenPhase(97, new LocalDate(2019, 11, 11))).UsualDay);
    }

    // Leaf fall of December still ends the year before; this year's autumn and evergreens teach nothing.
    [Fact]
    public void Fit_TakesOnlyPastAutumnsOfDeciduousTrees()
    {
        Assert.Equal(1, Fit(new SeenPhase(97, new LocalDate(2019, 12, 8)), new SeenPhase(93, new LocalDate(2019, 11, 20))).Autumns);
        Assert.Equal(0, Fit(new SeenPhase(92, new LocalDate(2020, 10, 1))).Autumns);
        Assert.Equal(0, LocalAutumn.Fit(Plants.Scale(Plants.Olive), Site, [new SeenPhase(95, new LocalDate(2019, 11, 1))], Season.Year).Autumns);
    }

    [Fact]
    public void DayOf_CoolerAutumn_ComesEarlier()
    {
        var autumn = Fit([.. Enumerable.Range(2005, 15).Select(year => new SeenPhase(95, new LocalDate(year, 11, 1)))]);
        var days = Season.Members
            .Select(member => (Cooling: AutumnCooling.MeanC(member.MinC, member.MaxC, Season.Light.Hours, autumn.UsualDay!.Value), Day: autumn.DayOf(95, Maple, Season, member)))
            .OrderBy(member => member.Cooling).ToList();

        Assert.True(days.Count > 15);
        Assert.Equal(4.8 * (days[^1].Cooling - days[0].Cooling), days[0].Day - days[^1].Day, 6);
        Assert.True(days[0].Day - days[^1].Day > 1);
    }

    [Fact]
    public void Outlook_WithOwnAutumns_HasABandThatIsNoCertainty()
    {
        var autumn = Fit([.. Enumerable.Range(2005, 15).Select(year => new SeenPhase(93, new LocalDate(year, 10, 25)))]);
        var outlook = new GrowthOutlook(Season, GardenClock.OfCatalog(new SiteSprings(Season), Plants.Rules, Plants.Clock).Of(Maple.Species), [], autumn);
        var band = outlook.Band(93);

        Assert.InRange(band.Likely!.Value, new LocalDate(2020, 10, 20), new LocalDate(2020, 10, 30));
        Assert.InRange(Period.DaysBetween(band.Early!.Value, band.Late!.Value), 14, 24);
        Assert.True(outlook.Band(92).Likely < band.Likely);
    }

    private static LocalAutumn Fit(params SeenPhase[] seen) => LocalAutumn.Fit(Maple, Site, seen, Season.Year);

    private static double RuleDay(int year)
    {
        var past = SeasonEnsemble.Build(Site, new GrowthYear(year, Hemisphere.North));
        return Autumn.DayOf(95, Maple, past, Assert.Single(past.Members));
    }

    private static double Likely(LocalAutumn autumn) => Season.Members.Average(member => autumn.DayOf(95, Maple, Season, member));
}
