using NodaTime;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>A reported date that lies farther from what the clock believes than four of its spreads: worth a question.</summary>
/// <param name="Expected">The day the clock would have given for that spring.</param>
/// <param name="Spreads">How many spreads the report lies from it; negative: earlier.</param>
public sealed record DoubtfulDate(LocalDate Expected, double Spreads)
{
    private const double MostSpreads = 4;

    /// <summary>Null when the date may well be right, or the clock knows nothing of that spring.</summary>
    /// <param name="clock">The species' clock as it was before this report.</param>
    /// <param name="site">The garden's springs.</param>
    /// <param name="bbch">The growth point reported.</param>
    /// <param name="date">The day reported.</param>
    public static DoubtfulDate? Of(LocalClock clock, SiteSprings site, int bbch, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(site);
        var year = GrowthYear.Of(date, site.Season.Year.Hemisphere);
        if (GrowthScale.Named(bbch) is not { } named || clock.Of(named) is not { } code || site.DayIn(code, year) is not { } expected)
            return null;
        var spreads = (year.DayOf(date) + 0.5 - expected) / code.ErrorDays;
        return Math.Abs(spreads) > MostSpreads ? new DoubtfulDate(year.DateOf((int)Math.Floor(expected)), spreads) : null;
    }
}
