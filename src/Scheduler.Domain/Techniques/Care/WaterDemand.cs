using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// Water drawn from a pot on a day, as an index: reference evapotranspiration [mm/d] times factors of phase, leaf, pot,
/// place, wind and species. It ranks days and trees against each other and asks for a look; it is no amount of water.
/// </summary>
/// <remarks>
/// ET0 as forecast, else from the day's extremes alone by Hargreaves-Samani: Allen et al., FAO Irrigation and Drainage
/// Paper 56, 1998, equation 52. The factors are estimates.
/// </remarks>
internal sealed class WaterDemand(WateringRules rules, TreeYear year)
{
    /// <summary>The day's weather; null: not known.</summary>
    public DayWeather? Day { get; } = year.Garden.Days.FirstOrDefault(day => day.Date == year.Today);

    /// <summary>True when ET0 is worked out from temperatures because the weather data have none.</summary>
    public bool IsFromTemperature => !year.IsIndoors && Day is { Et0Mm: null };

    public double? Et0Mm => year.IsIndoors ? rules.RoomMm.Value
        : Day is null ? null
        : Day.Et0Mm ?? ReferenceEvapotranspiration.Hargreaves(Day.MinC, Day.MaxC, SolarRadiation.Extraterrestrial(year.Garden.Latitude, year.Today.DayOfYear));

    public double? Index => Et0Mm * PhaseFactor * WorkFactor * rules.Pots[year.Tree.Size].Value * rules.Places[year.Tree.Placement].Value
        * WindFactor * (year.Species.WaterFactor?.Value ?? 1);

    // The last that is reached; the first that fits is the state at rest.
    private double PhaseFactor
    {
        get
        {
            var atRest = rules.Phases.FirstFor(year)!;
            for (var index = rules.Phases.Count - 1; index >= 0; index--)
            {
                var row = rules.Phases[index];
                if (ReferenceEquals(row, atRest) || row.For.Fits(year) && CareClock.HasCome(row.From, year, Side.Opening))
                    return row.Factor.Value;
            }
            return atRest.Factor.Value;
        }
    }

    private double WorkFactor => rules.Work.Where(IsShowing).Select(row => row.Factor.Value).DefaultIfEmpty(1).Min();

    private double WindFactor => year.Tree.Placement == Placement.Open && Day?.GustKmh >= rules.WindKmh.Value ? rules.WindFactor.Value : 1;

    private bool IsShowing(WorkFactor row) => year.Log.Last(row.Work) is not null
        && (row.Until is null || !CareClock.HasCome(row.Until, year, Side.Opening));
}
