using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>Single leaves unfolded on one shoot on one day.</summary>
/// <param name="Shoot">Tells shoots of one tree apart; counts are only compared on the same one.</param>
public sealed record LeafCount(string Shoot, LocalDate Date, int SingleLeaves);

/// <summary>What counted leaves say: the BBCH code they stand for, and the tree's own heat from leaf to leaf.</summary>
/// <remarks>
/// Own phyllochron: step = heat between two counts / leaves (opposite: pairs) unfolded in between. Its logarithm is drawn
/// to the catalog's: f = sum(ln(step / catalog) / v) / (sum(1 / v) + 1 / t^2), v = 2 (e / leaves)^2 + s^2, where e is the error
/// of a count, s the year-to-year spread and t the spread of plants around the catalog (normal-normal shrinkage).
/// </remarks>
public static class LeafTrack
{
    private const int MostCoded = 9;
    // A shoot that took three times the usual heat has stopped in between.
    private const double StoppedFactor = 3;

    /// <summary>The code from 11 to 19 of a shoot with so many single leaves; null for none, or more than the scale can tell.</summary>
    public static int? CodeOf(int singleLeaves, bool opposite)
    {
        var steps = Steps(singleLeaves, opposite);
        return steps is >= 1 and <= MostCoded ? 10 + steps : null;
    }

    /// <summary>The tree's own heat from one leaf (opposite: pair) to the next [C*d]; null when its counts do not tell.</summary>
    /// <param name="catalog">The species' scale with the catalog's step.</param>
    /// <param name="counts">Counts of one growth season.</param>
    /// <param name="heatCdAt">Running heat above base 5 on a date.</param>
    public static double? OwnStepCd(GrowthScale catalog, IEnumerable<LeafCount> counts, Func<LocalDate, double> heatCdAt)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(counts);
        ArgumentNullException.ThrowIfNull(heatCdAt);
        double sum = 0, precision = 0;
        foreach (var shoot in counts.GroupBy(count => count.Shoot))
        {
            if (Rise(shoot.OrderBy(count => count.Date)) is not var (first, last))
                continue;
            var leaves = Steps(last.SingleLeaves, catalog.Species.HasOppositeLeaves) - Steps(first.SingleLeaves, catalog.Species.HasOppositeLeaves);
            var heatCd = heatCdAt(last.Date) - heatCdAt(first.Date);
            if (leaves < 1 || !(heatCd > 0) || heatCd > StoppedFactor * leaves * catalog.LeafStepCd)
                continue;
            var weight = 1 / (2 * Square(catalog.Rules.LeafCountError.Value / leaves) + Square(catalog.Rules.YearSpread.Value));
            sum += weight * Math.Log(heatCd / leaves / catalog.LeafStepCd);
            precision += weight;
        }
        return precision > 0 ? catalog.LeafStepCd * Math.Exp(sum / (precision + 1 / Square(catalog.Rules.LeafStepSpread.Value))) : null;
    }

    // From the first count on as long as each is higher than the one before: a cut or a stop ends it.
    private static (LeafCount First, LeafCount Last)? Rise(IEnumerable<LeafCount> counts)
    {
        LeafCount? first = null, last = null;
        foreach (var count in counts)
        {
            if (last is not null && (count.SingleLeaves <= last.SingleLeaves || count.Date == last.Date))
                break;
            (first, last) = (first ?? count, count);
        }
        return first is null || ReferenceEquals(first, last) ? null : (first, last!);
    }

    private static int Steps(int singleLeaves, bool opposite) => opposite ? (singleLeaves + 1) / 2 : singleLeaves;

    private static double Square(double value) => value * value;
}
