using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed class ShapeCourseTests
{
    // The halving search over running sums against the day-by-day index, on made weather of several climates.
    [Fact]
    public void CrossingAndIndex_EqualTheDayByDayForm()
    {
        foreach (var made in new[] { MadeWeather.Temperate, MadeWeather.MildWinter, MadeWeather.Temperate with { MeanC = 4, Latitude = 60 } })
        {
            var site = made.Site(new LocalDate(2000, 6, 1), new LocalDate(2003, 12, 31), new LocalDate(2004, 1, 1));
            var season = SeasonEnsemble.Build(site, new GrowthYear(2003, site.Hemisphere));
            var history = new SiteHistory("here", site.Latitude, site.Days).Season(2003);
            foreach (var shape in Plants.Clock.Trees.Shapes.Concat(Plants.Clock.Fruit.Shapes).Concat(Plants.Clock.Vines.Shapes))
            {
                var course = season.MemberCourses.Of(shape)[0];
                var start = shape.StartDay(220);
                for (var day = start + 5; day < 300; day += 7)
                    Assert.Equal(DevelopmentIndex.At(history, shape, start, day), course.At(start, day), 6);
                foreach (var threshold in new[] { 3.0, 5, 6.2, 7.1, 12 })
                {
                    var expected = DevelopmentIndex.Crossing(history, shape, start, threshold);
                    // Chill goes on in autumn there and ends at midsummer here.
                    if (expected < season.Year.MidsummerDay)
                        Assert.Equal(expected, course.Crossing(start, threshold), 6);
                }
            }
        }
    }

    [Fact]
    public void DayOfHeat_IsTheWayBackFromHeatAt()
    {
        var site = MadeWeather.Temperate.Site(new LocalDate(2000, 6, 1), new LocalDate(2003, 12, 31), new LocalDate(2004, 1, 1));
        var course = SeasonEnsemble.Build(site, new GrowthYear(2003, site.Hemisphere)).MemberCourses.Of(new IndexShape(4, 0, null, 0))[0];

        foreach (var (from, to) in new[] { (200.0, 230.0), (215.25, 216.75), (240.5, 300.1) })
            Assert.Equal(to, course.DayOfHeat(from, course.HeatAt(to) - course.HeatAt(from)), 6);
        Assert.Equal(220.5, course.DayOfHeat(220.5, 0), 6);
        Assert.True(double.IsPositiveInfinity(course.DayOfHeat(200, 1e6)));
    }
}
