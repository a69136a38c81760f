using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class GrowthYearTests
{
    [Theory]
    [InlineData(Hemisphere.North, 2023, "2022-09-01", "2023-01-01", "2022-12-01", "2023-12-31", 487)]
    [InlineData(Hemisphere.North, 2024, "2023-09-01", "2024-01-01", "2023-12-01", "2024-12-31", 488)]
    [InlineData(Hemisphere.South, 2023, "2023-03-01", "2023-07-01", "2023-06-01", "2024-06-30", 488)]
    [InlineData(Hemisphere.South, 2024, "2024-03-01", "2024-07-01", "2024-06-01", "2025-06-30", 487)]
    public void Axis_HasItsDates(Hemisphere hemisphere, int year, string chill, string heat, string turn, string end, int days)
    {
        var subject = new GrowthYear(year, hemisphere);

        Assert.Equal(
            (chill, heat, turn, end, days, days == 488),
            (Text(subject.ChillStart), Text(subject.HeatStart), Text(subject.Turn), Text(subject.AxisEnd), subject.Days, subject.HasLeapDay));
        Assert.Equal(subject.HeatStart, subject.DateOf(subject.HeatStartDay));
        Assert.Equal(subject.AxisEnd, subject.DateOf(subject.Days - 1));
    }

    [Theory]
    [InlineData(Hemisphere.North, "2024-11-30", 2024)]
    [InlineData(Hemisphere.North, "2024-12-01", 2025)]
    [InlineData(Hemisphere.North, "2024-02-29", 2024)]
    [InlineData(Hemisphere.South, "2024-05-31", 2023)]
    [InlineData(Hemisphere.South, "2024-06-01", 2024)]
    [InlineData(Hemisphere.South, "2024-12-31", 2024)]
    public void Of_WorkTurnsInEarlyWinter(Hemisphere hemisphere, string date, int year)
    {
        var day = NodaTime.Text.LocalDatePattern.Iso.Parse(date).Value;

        Assert.Equal(year, GrowthYear.Of(day, hemisphere).Year);
        Assert.True(GrowthYear.Of(day, hemisphere).Contains(day));
    }

    [Fact]
    public void Of_EveryDayBelongsToExactlyOne()
    {
        foreach (var hemisphere in new[] { Hemisphere.North, Hemisphere.South })
        {
            for (var day = new LocalDate(2023, 1, 1); day.Year < 2026; day = day.PlusDays(1))
                Assert.Single(Enumerable.Range(2021, 7), year => new GrowthYear(year, hemisphere).Contains(day));
        }
    }

    [Fact]
    public void DayIn_AgreesWithSameDayIn()
    {
        foreach (var hemisphere in new[] { Hemisphere.North, Hemisphere.South })
        {
            foreach (var (year, other) in new[] { (2024, 2023), (2023, 2024), (2023, 2022), (2025, 2024), (2024, 2020) })
            {
                GrowthYear to = new(year, hemisphere), from = new(other, hemisphere);
                for (var day = 0; day < to.Days; day++)
                    Assert.Equal(from.DayOf(to.SameDayIn(to.DateOf(day), from)), to.DayIn(day, from));
            }
        }
    }

    [Fact]
    public void SameDayIn_LeapDay()
    {
        var year = new GrowthYear(2024, Hemisphere.North);

        Assert.Equal(new LocalDate(2023, 2, 28), year.SameDayIn(new LocalDate(2024, 2, 29), year.Previous));
    }

    private static string Text(LocalDate date) => NodaTime.Text.LocalDatePattern.Iso.Format(date);
}
