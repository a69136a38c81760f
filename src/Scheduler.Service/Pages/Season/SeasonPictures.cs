using System.Collections.Concurrent;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Plans;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Season;

/// <summary>One species' season with what is drawn of it.</summary>
/// <param name="SpringsLearned">How many past springs have taught the clock about it here.</param>
public sealed record SpeciesSeason(Species Species, SeasonForecast Forecast, int SpringsLearned, SeasonCurve Heat, SeasonCurve Chill)
{
    /// <summary>The next phase that is still to come; null: none is expected.</summary>
    public PhaseForecast? Next => Forecast.Phases.Where(phase => phase.ReachedOn is null && phase.Band.IsExpected).MinBy(phase => phase.Band.Likely);
}

/// <summary>The seasons of all species of a garden.</summary>
public sealed record GardenSeasons(LocalDate Today, IReadOnlyList<SpeciesSeason> All, FrostAnswer Frost, WeatherStatus Weather);

/// <summary>Keeps the seasons of each garden until the garden is planned anew; <see cref="TodayPictures"/> tells why.</summary>
public sealed class SeasonPictures(GardenFactsLoader facts, TodayPictures pictures)
{
    private const int MostGardens = 500;
    private readonly ConcurrentDictionary<Guid, (string Print, GardenSeasons Seasons)> _kept = new();

    public async Task<GardenSeasons?> OfAsync(Guid gardenId, LocalDate today, CancellationToken cancel)
    {
        var print = $"{today:uuuu-MM-dd} {await pictures.PrintAsync(gardenId, cancel)}";
        if (_kept.TryGetValue(gardenId, out var kept) && kept.Print == print)
            return kept.Seasons;
        if (await facts.LoadAsync(gardenId, cancel) is not { } picture)
            return null;
        if (_kept.Count >= MostGardens)
            _kept.Clear();
        var made = new GardenSeasons(picture.Today, Seasons(picture), FrostAnswer.Of(picture.Seasons.Current), picture.Weather);
        _kept[gardenId] = (print, made);
        return made;
    }

    // All species share the weather, so each growth year is drawn once.
    private static List<SpeciesSeason> Seasons(GardenPicture picture)
    {
        var curves = new Dictionary<GrowthYear, (SeasonCurve Heat, SeasonCurve Chill)>();
        var all = new List<SpeciesSeason>();
        foreach (var species in picture.Trees.Select(tree => tree.Species).DistinctBy(kind => kind.Id).OrderBy(kind => kind.CommonName, StringComparer.OrdinalIgnoreCase))
        {
            var shown = ShownSeason.Of(species, picture);
            if (!curves.TryGetValue(shown.Season.Year, out var drawn))
                curves[shown.Season.Year] = drawn = (SeasonCurve.Heat(shown.Season), SeasonCurve.Chill(shown.Season));
            all.Add(new SpeciesSeason(species, shown.Forecast, picture.Clock.SpringsLearned(species), drawn.Heat, drawn.Chill));
        }
        return all;
    }
}
