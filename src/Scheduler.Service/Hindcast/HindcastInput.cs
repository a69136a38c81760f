using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Hindcast;

/// <summary>What is to be forecast: a phase of a plant kind at a site in a year, and when the forecast is issued.</summary>
/// <param name="Year">As stated: the growth year of spring phases, the calendar year of autumns.</param>
/// <param name="IssuedOn">Null: the whole season's weather may be used.</param>
internal sealed record Question(SeriesKey Series, int Year, LocalDate? IssuedOn);

/// <summary>The four input files, checked.</summary>
/// <param name="Sites">Places with weather.</param>
/// <param name="AutumnsByGrowthYear">Southern sites whose autumns are numbered by growth year.</param>
/// <param name="Dates">What was seen, on the axis of the growth year.</param>
internal sealed record HindcastInput(
    IReadOnlyDictionary<string, SiteHistory> Sites,
    IReadOnlyDictionary<string, Hemisphere> Hemispheres,
    IReadOnlySet<string> AutumnsByGrowthYear,
    IReadOnlyList<PhaseDate> Dates,
    IReadOnlyList<Question> Asked)
{
    public GrowthYear AxisOf(Question question) => PhaseYears.Of(
        question.Series.Phase, question.Year, Hemispheres[question.Series.Site], AutumnsByGrowthYear.Contains(question.Series.Site));
}
