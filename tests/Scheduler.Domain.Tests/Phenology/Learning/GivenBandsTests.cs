using NodaTime;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;

namespace Scheduler.Domain.Tests.Phenology.Learning;

/// <summary>The range of a leaf date once the bud break of that spring was seen, on invented weather and dates.</summary>
public class GivenBandsTests
{
    private const int FirstYear = 1971, Years = 30, Asked = 2001;
    private static readonly ClockRules Rules = ClockRules.Developed;
    private static readonly SiteHistory Place = new("here", 40, MadeWeather.Temperate.Days(new LocalDate(1960, 9, 1), new LocalDate(2002, 12, 31)));
    private static readonly IndexShape Shape = Rules.Trees.Shapes[0];

    [Fact]
    public void Range_WidensWhereTheDaysBetweenTwoPhasesVary()
    {
        DayForecast steady = Leaf(year => 0), unsteady = Leaf(year => year % 5 * 4 - 8);

        Assert.True(unsteady.Late - unsteady.Early > 2 * (steady.Late - steady.Early), $"{unsteady} against {steady}");
    }

    [Fact]
    public void Range_HoldsEightOfTenOfTheDatesItLearnedFrom()
    {
        static int Off(int year) => year % 5 * 4 - 8;
        var dates = Dates(Off);
        var inside = Enumerable.Range(FirstYear, Years).Count(year =>
        {
            var leaf = dates.Single(date => date.Phase == "leaf" && date.Year == year);
            var forecast = Forecaster([.. dates.Where(date => date.Year != year)])
                .Forecast(leaf.Series, year, null, [dates.Single(date => date.Phase == "bud_break" && date.Year == year)]);
            return leaf.Day >= Math.Floor(forecast.Early) && leaf.Day <= Math.Ceiling(forecast.Late);
        });

        Assert.InRange(inside / (double)Years, 0.7, 0.9);
    }

    private static DayForecast Leaf(Func<int, int> offDays)
    {
        var dates = Dates(offDays);
        return Forecaster([.. dates.Where(date => date.Year < Asked)])
            .Forecast(new SeriesKey("here", "Acer rubrum", "leaf"), Asked, null, [dates.Single(date => date.Phase == "bud_break" && date.Year == Asked)]);
    }

    private static SeriesForecaster Forecaster(IReadOnlyList<PhaseDate> dates) => new(
        new SharedClock(new Dictionary<string, SiteHistory> { ["here"] = Place }, dates, Rules, new Kinship(new Dictionary<string, string>())), Rules);

    // Bud break as one shape has it, the leaf twelve days on and off by what is asked.
    private static List<PhaseDate> Dates(Func<int, int> offDays) => [.. Enumerable.Range(FirstYear, Years + 1).SelectMany(year =>
    {
        var bud = Math.Floor(DevelopmentIndex.Crossing(Place.Season(year), Shape, 160, 5.2));
        return new[] { new PhaseDate("here", "Acer rubrum", "bud_break", year, bud), new PhaseDate("here", "Acer rubrum", "leaf", year, bud + 12 + offDays(year)) };
    })];
}
