using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Accumulation;

/// <summary>Every series here is invented.</summary>
public class ExtremeMinimumTests
{
    [Fact]
    public void WinterIsNotCutAtNewYear()
    {
        // Two northern winters: the coldest night of the first is in December 2001, of the second in January 2003.
        var series = Mild(new LocalDate(2001, 7, 1), new LocalDate(2003, 6, 30))
            .OverlaidWith(Night(new LocalDate(2001, 12, 31), -20))
            .OverlaidWith(Night(new LocalDate(2002, 1, 1), -18))
            .OverlaidWith(Night(new LocalDate(2003, 1, 5), -10));
        Assert.Equal([(2001, -20.0), (2002, -10.0)], ExtremeMinimum.OfWinters(series, Hemisphere.North));
        Assert.Equal(-15, ExtremeMinimum.MeanC(series, Hemisphere.North));
        Assert.Equal([(2002, -18.0)], ExtremeMinimum.OfWinters(series, Hemisphere.South));
    }

    [Fact]
    public void TooManyDaysMissing_DoesNotCount()
    {
        var start = new LocalDate(2001, 7, 1);
        Assert.NotNull(ExtremeMinimum.MeanC(Mild(start.PlusDays(10), new LocalDate(2002, 6, 30)), Hemisphere.North));
        Assert.Null(ExtremeMinimum.MeanC(Mild(start.PlusDays(11), new LocalDate(2002, 6, 30)), Hemisphere.North));
        Assert.Null(ExtremeMinimum.MeanC(Mild(start.PlusDays(6), new LocalDate(2002, 6, 25)), Hemisphere.North));
        Assert.Null(ExtremeMinimum.MeanC(TemperatureSeries.Empty, Hemisphere.North));
    }

    private static TemperatureSeries Mild(LocalDate from, LocalDate to) =>
        TemperatureSeries.From(new DateInterval(from, to).Select(date => new DailyTemperature(date, 4, 12)));

    private static TemperatureSeries Night(LocalDate date, double minC) => TemperatureSeries.From([new DailyTemperature(date, minC, 12)]);
}
