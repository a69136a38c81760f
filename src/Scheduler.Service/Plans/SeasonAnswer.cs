using NodaTime;
using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Plans;

/// <summary>One species' season as the API tells it. Dates are local; heat is [C*d]; chill is [portions].</summary>
public sealed record SeasonAnswer(
    string Species, int Year, LocalDate Date, double? DaysEarly, HeatAnswer Heat, ChillAnswer Chill,
    IReadOnlyList<PhaseAnswer> Phases, string? NormalYears, int SpringsLearned)
{
    public static SeasonAnswer Of(SeasonForecast forecast, double baseC, int springsLearned) => new(
        forecast.SpeciesId, forecast.Year.Year, forecast.Date, forecast.DaysEarly,
        new HeatAnswer(baseC, Math.Round(forecast.HeatCd, 1), forecast.NormalHeatCd is { } normal ? Math.Round(normal, 1) : null),
        new ChillAnswer("chill-portions", Math.Round(forecast.ChillPortions, 1), forecast.ChillRequired),
        [.. forecast.Phases.Select(PhaseAnswer.Of)],
        forecast.NormalYears.Count == 0 ? null : $"{forecast.NormalYears[0]}-{forecast.NormalYears[^1]} ({forecast.NormalYears.Count} years)",
        springsLearned);
}

public sealed record HeatAnswer(double BaseC, double TotalCd, double? NormalCd);

/// <param name="Model">Always the dynamic model's chill portions (Fishman, Erez and Couvillon 1987).</param>
public sealed record ChillAnswer(string Model, double Total, double Required);

/// <param name="Seen">True when the owner saw it, false when only the clock says it is past.</param>
public sealed record PhaseAnswer(
    string Phase, int Bbch, LocalDate? Early, LocalDate? Likely, LocalDate? Late, LocalDate? Normal, LocalDate? ReachedOn, bool Seen, string? Remark)
{
    public static PhaseAnswer Of(PhaseForecast phase) => new(
        phase.Phase.Id, phase.Phase.Bbch, phase.Band.Early, phase.Band.Likely, phase.Band.Late,
        phase.Normal, phase.ReachedOn, phase.Seen, phase.Remark);
}
