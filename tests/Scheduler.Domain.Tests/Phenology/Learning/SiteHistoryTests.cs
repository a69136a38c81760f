using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology.Learning;

/// <summary>What a place knows while a season runs.</summary>
public class SiteHistoryTests
{
    private static readonly GrowthYear Running = new(2006, Hemisphere.North);
    private static readonly LocalDate IssuedOn = new(2006, 3, 20);

    [Fact]
    public void RunningSeason_HoldsNothingOfALaterDay()
    {
        var gap = new DateInterval(new LocalDate(2006, 3, 18), new LocalDate(2006, 3, 24));
        var one = During(Place(gap, laterC: 0));
        var two = During(Place(gap, laterC: 15));

        var day = Running.DayOf(IssuedOn);
        Assert.Equal(one.Season(2006).MinC[..(day + 1)], two.Season(2006).MinC[..(day + 1)]);
        Assert.Equal(one.Season(2006).ChillPortions[..(day + 1)], two.Season(2006).ChillPortions[..(day + 1)]);
        Assert.Equal(one.Season(2006).MinC[day - 3], one.Season(2006).MinC[day]);
        // The whole record, which may look back, fills the gap from both sides.
        Assert.NotEqual(Place(gap, 0).Season(2006).MinC[day], Place(gap, 15).Season(2006).MinC[day]);
    }

    [Fact]
    public void StandInYears_WereOverOnTheDayOfIssue()
    {
        var place = During(Place(null, 0));

        Assert.Equal(2005, place.LastYear);
        Assert.Equal([2005, 2004, 2003, 2002, 2001], place.EarlierYears(2006, 30).Select(season => season.Year.Year));
        Assert.Equal(5, place.EarlierYears(2010, 30).Count());
        Assert.Equal(2007, Place(null, 0).EarlierYears(2008, 30).First().Year.Year);
    }

    [Theory]
    [InlineData("2006-03-20", 2005)]
    [InlineData("2005-10-01", 2005)]
    [InlineData("2005-09-05", 2004)]
    [InlineData("2005-03-20", 2004)]
    public void LastWholeYear_IsOverWithAllThatFillsItsGaps(string issuedOn, int year) =>
        Assert.Equal(year, SiteHistory.LastWholeYear(Running, NodaTime.Text.LocalDatePattern.Iso.Parse(issuedOn).Value));

    private static SiteHistory During(SiteHistory place) => place.During(2006, SiteHistory.LastWholeYear(Running, IssuedOn));

    private static SiteHistory Place(DateInterval? gap, double laterC)
    {
        var days = new List<DailyTemperature>();
        for (var date = new LocalDate(2000, 9, 1); date <= new LocalDate(2007, 12, 31); date = date.PlusDays(1))
        {
            var meanC = 9 - 9 * Math.Cos((date.DayOfYear - 15) * 2 * Math.PI / 365.25) + (date > IssuedOn ? laterC : 0);
            if (gap?.Contains(date) != true)
                days.Add(new DailyTemperature(date, meanC - 4, meanC + 4));
        }
        return new SiteHistory("made", 50, TemperatureSeries.From(days));
    }
}
