using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class FrostOutlookTests
{
    private static readonly GrowthYear Year = new(2021, Hemisphere.North);

    // Ten past autumns with the first frost on 1 to 10 November; the mean is half past the 5th, the 10th percentile the second, 2 November.
    [Fact]
    public void FirstFrost_TenAutumns()
    {
        var frost = Season(year => new LocalDate(year, 11, year - 2010)).Frost;

        Assert.Equal(Year.DayOf(new LocalDate(2021, 11, 1)) + 4.5, frost.AverageDay!.Value, 9);
        Assert.Equal(Year.DayOf(new LocalDate(2021, 11, 2)), frost.CautiousDay!.Value);
    }

    [Fact]
    public void FirstFrost_MostAutumnsWithout_None()
    {
        var frost = Season(year => year <= 2014 ? new LocalDate(year, 11, 1) : null).Frost;

        Assert.Null(frost.AverageDay);
        Assert.Null(frost.CautiousDay);
    }

    [Fact]
    public void FirstFrost_NoYears_None()
    {
        var frost = SeasonEnsemble.Build(new SiteWeather(40, Year.ChillStart, TemperatureSeries.Empty), Year).Frost;

        Assert.Null(frost.AverageDay);
        Assert.Equal(0, frost.RemainingCd(5, 10, 200));
    }

    // Every day but the frost has 12 and 20 C: eleven degree-days above 5, six above 10.
    [Fact]
    public void Remaining_TwentyDays()
    {
        var frost = Season(year => new LocalDate(year, 11, 5)).Frost;
        var from = Year.DayOf(new LocalDate(2021, 6, 1));

        Assert.Equal(220, frost.RemainingCd(5, from, from + 20), 6);
        Assert.Equal(120, frost.RemainingCd(10, from, from + 20), 6);
        Assert.Equal(5.5, frost.RemainingCd(5, from, from + 0.5), 6);
        Assert.Equal(0, frost.RemainingCd(5, from + 20, from));
    }

    private static SeasonEnsemble Season(Func<int, LocalDate?> frost)
    {
        var first = new LocalDate(2010, 9, 1);
        var days = Enumerable.Range(0, Period.DaysBetween(first, new LocalDate(2020, 12, 31)) + 1).Select(first.PlusDays)
            .Select(date => new DailyTemperature(date, date.Year > 2010 && date == frost(date.Year) ? -1 : 12, 20));
        return SeasonEnsemble.Build(new SiteWeather(40, new LocalDate(2021, 1, 1), TemperatureSeries.From(days)), Year);
    }
}
