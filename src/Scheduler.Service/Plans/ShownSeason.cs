using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Plans;

/// <summary>The growth year in which a species is shown, and where the species stands in it.</summary>
public sealed record ShownSeason(SeasonEnsemble Season, SeasonForecast Forecast)
{
    /// <summary>Once everything of this growth year is past, the owner looks ahead.</summary>
    public static ShownSeason Of(Species species, GardenPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var current = In(species, picture, picture.Seasons.Current);
        var phases = current.Forecast.Phases;
        var isOver = phases.All(phase => phase.ReachedOn is not null || !phase.Band.IsExpected) && phases.Any(phase => phase.ReachedOn is not null);
        return isOver ? In(species, picture, picture.Seasons.Next) : current;
    }

    private static ShownSeason In(Species species, GardenPicture picture, SeasonEnsemble season) =>
        new(season, PhaseForecaster.Forecast(picture.Clock.OfSpecies(species, season), picture.Clock.NormalOf(species, season)));
}
