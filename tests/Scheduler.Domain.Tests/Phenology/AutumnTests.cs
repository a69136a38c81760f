using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class AutumnTests
{
    private static readonly GrowthYear Year = new(2019, Hemisphere.North);

    // 20 C until 31 October, then 2 C: the ten days to 7 November are 3 of 20 and 7 of 2, mean 7.4; a day before 9.2. Days are short by then.
    [Fact]
    public void DayOf_ColdFromNovember_HalfFallenOnTheSeventh()
    {
        var season = Season(date => date < new LocalDate(2019, 11, 1) && date > new LocalDate(2019, 4, 1) ? 20 : 2);
        var scale = Plants.Scale(Plants.Maple);
        var member = Assert.Single(season.Members);

        Assert.Equal(Year.DayOf(new LocalDate(2019, 11, 7)), Autumn.DayOf(95, scale, season, member));
        Assert.Equal(Year.DayOf(new LocalDate(2019, 10, 28)), Autumn.DayOf(93, scale, season, member));
        Assert.Equal(Year.DayOf(new LocalDate(2019, 11, 17)), Autumn.DayOf(97, scale, season, member));
    }

    // Cold from August on is no autumn yet: the day is long. At 40 N day 281 has 11.521 h and day 282, 9 October, 11.478 h (the CBM formula worked out apart).
    [Fact]
    public void DayOf_ColdAugust_WaitsForShortDays()
    {
        var season = Season(date => date > new LocalDate(2019, 8, 1) || date < new LocalDate(2019, 4, 1) ? 3 : 20);
        var day = Autumn.DayOf(95, Plants.Scale(Plants.Maple), season, season.Members[0]);

        Assert.Equal(Year.DayOf(new LocalDate(2019, 10, 9)), day);
    }

    [Fact]
    public void DayOf_NoColdAutumn_Never()
    {
        var season = Season(_ => 15);

        Assert.True(double.IsPositiveInfinity(Autumn.DayOf(95, Plants.Scale(Plants.Maple), season, season.Members[0])));
    }

    // Minima are 5 C under the mean: 10 C until mid November, then -1 C. Mean minimum of ten days under 5 C on the fifth cold one: (5*10 - 5) / 10 = 4.5.
    [Fact]
    public void DayOf_Evergreen_RestsByItsNights()
    {
        var season = Season(date => date < new LocalDate(2019, 11, 15) && date > new LocalDate(2019, 4, 1) ? 15 : 4);
        var scale = Plants.Scale(Plants.Olive);

        Assert.Equal(Year.DayOf(new LocalDate(2019, 11, 19)), Autumn.DayOf(97, scale, season, season.Members[0]));
        Assert.True(double.IsPositiveInfinity(Autumn.DayOf(95, scale, season, season.Members[0])));
    }

    [Fact]
    public void RestBegan_IsTheAutumnBefore()
    {
        var season = Season(date => date < new LocalDate(2018, 11, 1) || date > new LocalDate(2019, 4, 1) ? 20 : 2);

        Assert.Equal(Year.DayOf(new LocalDate(2018, 11, 17)), Autumn.RestBegan(Plants.Scale(Plants.Maple), season, season.Members[0]));
        Assert.True(double.IsPositiveInfinity(Autumn.RestBegan(Plants.Scale(Plants.Fig), season, season.Members[0])));
    }

    private static SeasonEnsemble Season(Func<LocalDate, double> meanC)
    {
        var days = Enumerable.Range(0, Year.Days).Select(Year.DateOf)
            .Select(date => new DailyTemperature(date, meanC(date) - 5, meanC(date) + 5));
        return SeasonEnsemble.Build(new SiteWeather(40, Year.AxisEnd.PlusDays(1), TemperatureSeries.From(days)), Year);
    }
}
