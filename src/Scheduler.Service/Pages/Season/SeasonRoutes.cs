using NodaTime;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Season;

/// <summary>Where the season stands: heat, chill and phases of each species of a garden.</summary>
public static class SeasonRoutes
{
    private static readonly string[] Sorts = ["name", "next", "early"];

    public static void MapSeason(this IEndpointRouteBuilder routes) => routes.MapOwnedPages().MapGet("/season", ShowAsync);

    private static async Task<IResult> ShowAsync(
        Guid? garden, string? species, string? q, string? sort, PageContext page, GardenStore gardens, SeasonPictures pictures, IClock clock, CancellationToken cancel)
    {
        var all = (await gardens.ListAsync(page.Owner.AccountId, "", int.MaxValue, cancel)).OrderBy(one => one.CreatedAt).ToList();
        if ((garden is null ? all.FirstOrDefault() : all.Find(one => one.Id == garden)) is not { } shown)
            return garden is null ? GoTo("/start") : Missing();
        if (await pictures.OfAsync(shown.Id, shown.DateAt(clock.GetCurrentInstant()), cancel) is not { } seasons)
            return Missing();
        var one = species is null ? seasons.All.FirstOrDefault() : seasons.All.FirstOrDefault(kind => kind.Species.Id == species);
        if (species is not null && one is null)
            return Missing();
        var text = string.IsNullOrWhiteSpace(q) ? null : q.Trim();
        var order = Sorts.Contains(sort) ? sort! : Sorts[0];
        return Page<SeasonPage>(new SeasonView(
            shown.Id, [.. all.Select(other => (other.Id, other.Name))], TodayBuilder.ZoneOf(shown), seasons, one, text, order, Listed(seasons, text, order)));
    }

    private static IReadOnlyList<SpeciesSeason> Listed(GardenSeasons seasons, string? text, string sort)
    {
        var fitting = seasons.All.Where(kind => text is null || kind.Species.CommonName.Contains(text, StringComparison.OrdinalIgnoreCase)
            || kind.Species.BotanicalName.Contains(text, StringComparison.OrdinalIgnoreCase));
        return sort switch
        {
            "next" => [.. fitting.OrderBy(kind => kind.Next?.Band.Likely ?? LocalDate.MaxIsoValue)],
            "early" => [.. fitting.OrderByDescending(kind => kind.Forecast.DaysEarly ?? double.NegativeInfinity)],
            _ => [.. fitting]
        };
    }
}

/// <summary>The seasons of a garden, one species of it in full.</summary>
/// <param name="Chosen">Null: the garden has no trees.</param>
/// <param name="Listed">What the list of species shows after filter and order.</param>
public sealed record SeasonView(
    Guid GardenId, IReadOnlyList<(Guid Id, string Name)> Gardens, DateTimeZone Zone, GardenSeasons Seasons, SpeciesSeason? Chosen,
    string? Text, string Sort, IReadOnlyList<SpeciesSeason> Listed);
