using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Plans;

/// <summary>Where all species of a garden stand, and the frosts around the season.</summary>
public sealed record SeasonPage(IReadOnlyList<SeasonAnswer> Items, string? Next, FrostAnswer Frost);

/// <summary>
/// The last frost of spring and the first of autumn at the garden's height and offset, as days of this growth year. A frost is a
/// daily minimum of 0 °C or lower at 2 m.
/// </summary>
/// <param name="LastSpring">Mean over the years that had one; cautious: no later in nine years of ten.</param>
/// <param name="FirstAutumn">Mean over the years that had one; cautious: no earlier in nine years of ten.</param>
/// <param name="Years">How many years tell; the smaller number where spring and autumn differ.</param>
public sealed record FrostAnswer(FrostDay LastSpring, FrostDay FirstAutumn, int Years)
{
    private const double Cautious = 10;

    public static FrostAnswer Of(SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        var site = season.Site;
        // What is forecast has not frozen yet.
        var lastDay = LocalDate.Min(site.Days.End, site.Today.PlusDays(-1));
        if (site.Days.Count == 0 || lastDay < site.Days.Start)
            return new FrostAnswer(default, default, 0);
        var past = site.Days.Slice(site.Days.Start, lastDay);
        var hemisphere = season.Year.Hemisphere;
        var spring = FrostDates.LastOfSpring(past, hemisphere);
        var autumn = FrostDates.FirstOfAutumn(past, hemisphere);
        // A southern autumn lies in the calendar year after its spring.
        var autumnYear = hemisphere == Hemisphere.North ? season.Year.Year : season.Year.Year + 1;
        return new FrostAnswer(
            new FrostDay(spring.MeanIn(season.Year.Year), spring.PercentileIn(season.Year.Year, 100 - Cautious)),
            new FrostDay(autumn.MeanIn(autumnYear), autumn.PercentileIn(autumnYear, Cautious)),
            Math.Min(spring.Years.Count, autumn.Years.Count));
    }
}

/// <summary>Null where no year had a frost, or where the cautious day falls among the years without.</summary>
public readonly record struct FrostDay(LocalDate? Average, LocalDate? Cautious);
