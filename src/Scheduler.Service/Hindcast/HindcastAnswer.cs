using NodaTime;

namespace Scheduler.Service.Hindcast;

/// <summary>How well the growth clock would have dated a phase here in past years, none of which it saw.</summary>
/// <param name="MaeDays">Mean distance between likely and observed date [d].</param>
/// <param name="BiasDays">Mean of likely minus observed [d]: above zero the clock is late.</param>
/// <param name="Coverage">Share of observed dates from early to late; 0.8 is what the range promises.</param>
/// <param name="Remark">Why there are no figures, or which years they leave out.</param>
public sealed record HindcastAnswer(
    IReadOnlyList<HindcastYear> Years, double? MaeDays, double? BiasDays, double? Coverage, string? Remark)
{
    public static HindcastAnswer Of(IReadOnlyList<HindcastYear> years, string? remark)
    {
        var told = years.Where(year => year.Likely is not null).ToList();
        if (told.Count == 0)
            return new HindcastAnswer(years, null, null, null, remark);
        var errors = told.ConvertAll(year => (double)Period.DaysBetween(year.Observed, year.Likely!.Value));
        return new HindcastAnswer(
            years,
            Math.Round(errors.Average(Math.Abs), 2),
            Math.Round(errors.Average(), 2),
            Math.Round(told.Average(year => year.Observed >= year.Early && year.Observed <= year.Late ? 1d : 0), 3),
            remark);
    }
}

/// <param name="Year">Growth year of spring phases, calendar year of an autumn.</param>
public sealed record HindcastYear(int Year, LocalDate Observed, LocalDate? Early, LocalDate? Likely, LocalDate? Late);
