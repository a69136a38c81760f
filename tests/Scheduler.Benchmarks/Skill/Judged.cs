using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>A date seen, what the calendar says and what the clock says of it.</summary>
/// <param name="CalendarDay">Not a number where there is no calendar yet.</param>
internal sealed record Judged(PhaseDate Seen, double CalendarDay, DayForecast Forecast)
{
    // A phase that came although it was not expected counts as this far off.
    private const double NotExpectedDays = 30;

    public double Error => Forecast.IsExpected ? Math.Abs(Forecast.Likely - Seen.Day) : NotExpectedDays;
    public double CalendarError => Math.Abs(CalendarDay - Seen.Day);
    public bool IsInside => Forecast.IsExpected && Seen.Day >= Math.Floor(Forecast.Early) && Seen.Day <= Math.Ceiling(Forecast.Late);
    public double Width => Forecast.IsExpected ? Forecast.Late - Forecast.Early : 0;
}

/// <summary>Mean absolute errors [d], share inside the range, mean width of the range [d].</summary>
internal sealed record Figures(double Mae, double Calendar, double Coverage, double Width, int Count)
{
    public double Share => Mae / Calendar;

    public static Figures Of(IReadOnlyCollection<Judged> judged) => new(
        judged.Average(one => one.Error),
        judged.Average(one => one.CalendarError),
        judged.Average(one => one.IsInside ? 1d : 0),
        judged.Average(one => one.Width),
        judged.Count);
}
