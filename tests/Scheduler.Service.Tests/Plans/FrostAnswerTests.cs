using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Tests.Plans;

public class FrostAnswerTests
{
    // Invented: it freezes every year from 20 November to 10 April (20 May to 10 October in the south), and the last ten years
    // have one late frost on 1 May (1 November).
    [Fact]
    public void Of_NorthernSite_GivesDaysOfThisYear()
    {
        var answer = Answer(50, new LocalDate(2021, 7, 1), date => (date.Month, date.Day) is var day
            && (day.CompareTo((11, 20)) >= 0 || day.CompareTo((4, 10)) <= 0 || (date.Year > 2011 && day == (5, 1))));

        // Counted from 1 January, a date after February stands a day later in leap years.
        Assert.InRange(answer.LastSpring.Cautious!.Value, new LocalDate(2021, 5, 1), new LocalDate(2021, 5, 2));
        Assert.Equal((new LocalDate(2021, 11, 20), new LocalDate(2021, 11, 20)), (answer.FirstAutumn.Average, answer.FirstAutumn.Cautious));
        Assert.InRange(answer.LastSpring.Average!.Value, new LocalDate(2021, 4, 18), new LocalDate(2021, 4, 23));
        Assert.Equal(20, answer.Years);
    }

    [Fact]
    public void Of_SouthernSite_PutsAutumnAfterItsSpring()
    {
        var answer = Answer(-40, new LocalDate(2021, 8, 1), date => (date.Month, date.Day) is var day
            && day.CompareTo((5, 20)) >= 0 && day.CompareTo((10, 10)) <= 0);

        Assert.Equal((new LocalDate(2021, 10, 10), new LocalDate(2022, 5, 20)), (answer.LastSpring.Average, answer.FirstAutumn.Average));
    }

    [Fact]
    public void Of_FrostFreeSite_HasNoDays()
    {
        var answer = Answer(10, new LocalDate(2021, 7, 1), _ => false);

        Assert.Equal((default, default), (answer.LastSpring, answer.FirstAutumn));
        Assert.Equal(20, answer.Years);
    }

    private static FrostAnswer Answer(double latitude, LocalDate today, Func<LocalDate, bool> freezes)
    {
        var start = new LocalDate(2001, 1, 1);
        var days = Enumerable.Range(0, Period.DaysBetween(start, today)).Select(start.PlusDays)
            .Select(date => new DailyTemperature(date, freezes(date) ? -3 : 6, 15));
        var site = new SiteWeather(latitude, today, TemperatureSeries.From(days));
        return FrostAnswer.Of(SeasonEnsemble.Build(site, site.CurrentYear));
    }
}
