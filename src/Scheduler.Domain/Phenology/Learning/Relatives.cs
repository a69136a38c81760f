namespace Scheduler.Domain.Phenology.Learning;

/// <summary>A value known for one series, such as its threshold or its usual date.</summary>
public readonly record struct KnownValue(SeriesKey Series, double Value);

/// <summary>
/// What is expected of a series from the same phase of its relatives: other plants of the species here, the species
/// elsewhere, the genus, the family, and all. Each level is a mean drawn towards the next wider one.
/// </summary>
public sealed class Relatives(Kinship kinship, ClockRules rules)
{
    private const double UpperWeight = 0.5;
    private const double AllWeight = 2;

    public Prior PriorOf(SeriesKey series, IReadOnlyList<KnownValue> known)
    {
        var others = known.Where(value => value.Series != series && PhaseClasses.Of(value.Series.Phase) == PhaseClasses.Of(series.Phase)).ToList();
        var same = others.Where(value => value.Series.Phase == series.Phase).ToList();
        if (same.Count == 0)
            same = others;
        if (same.Count == 0)
            return new Prior(null, rules.AnySpread);
        var (species, genus, family) = (Kinship.SpeciesOf(series.Kind), Kinship.Genus(series.Kind), kinship.Family(series.Kind));
        var mean = SeriesThreshold.Median([.. same.Select(value => value.Value)]);
        var spread = rules.AnySpread;
        Narrow(value => family is not null && kinship.Family(value.Series.Kind) == family, AllWeight, rules.KinSpread);
        Narrow(value => Kinship.Genus(value.Series.Kind) == genus, UpperWeight, rules.KinSpread);
        Narrow(value => Kinship.SpeciesOf(value.Series.Kind) == species, UpperWeight, rules.SpeciesSpread);
        Narrow(value => Kinship.SpeciesOf(value.Series.Kind) == species && value.Series.Site == series.Site, UpperWeight, rules.YearSpread);
        return new Prior(mean, spread);

        void Narrow(Func<KnownValue, bool> near, double upperWeight, double nearSpread)
        {
            var members = same.Where(near).ToList();
            if (members.Count == 0)
                return;
            mean = (members.Sum(value => value.Value) + upperWeight * mean) / (members.Count + upperWeight);
            spread = nearSpread;
        }
    }
}
