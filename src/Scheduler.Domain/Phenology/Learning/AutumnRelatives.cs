namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// The usual date of leaf color or fall of a plant that was never seen there: what its kind, genus and family do elsewhere, moved
/// by how much earlier or later than elsewhere the plants of this place are. Far from sure, and it says how far.
/// </summary>
/// <remarks>
/// Of the place's offset the share n / (n + 1) counts, n the series seen there. The spread is the root of the mean squared error over
/// all series, each guessed from the others, drawn to 12 days by the weight of three series.
/// </remarks>
internal sealed class AutumnRelatives
{
    private const double PriorSpreadDays = 12;
    private const double PriorSeries = 3;
    private readonly IReadOnlyList<KnownValue> _usual;
    private readonly Relatives _relatives;

    /// <param name="usual">The usual day of each series that was seen.</param>
    public AutumnRelatives(IReadOnlyList<KnownValue> usual, Relatives relatives)
    {
        (_usual, _relatives) = (usual, relatives);
        var errors = usual.Select(one => UsualDay(one.Series) - one.Value).OfType<double>().ToList();
        SpreadDays = Math.Sqrt((errors.Sum(error => error * error) + PriorSeries * PriorSpreadDays * PriorSpreadDays) / (errors.Count + PriorSeries));
    }

    /// <summary>How far the true usual day may lie from the guess, standard deviation.</summary>
    public double SpreadDays { get; }

    /// <summary>Axis day from all series but this one; null: no other was ever seen.</summary>
    public double? UsualDay(SeriesKey series)
    {
        var elsewhere = _usual.Where(one => one.Series.Site != series.Site).ToList();
        if (_relatives.PriorOf(series, elsewhere).Mean is not { } mean)
            return _relatives.PriorOf(series, _usual).Mean;
        var offsets = _usual.Where(one => one.Series.Site == series.Site && one.Series != series)
            .Select(one => one.Value - _relatives.PriorOf(one.Series, elsewhere).Mean!.Value).ToList();
        return mean + offsets.Sum() / (offsets.Count + 1);
    }
}
