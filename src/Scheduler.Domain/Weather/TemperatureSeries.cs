using NodaTime;

namespace Scheduler.Domain.Weather;

/// <summary>
/// Daily temperatures of consecutive local calendar days. A missing day keeps its place and is NaN in both arrays, so that
/// an index is always a number of days since <see cref="Start"/>.
/// </summary>
public sealed class TemperatureSeries
{
    private readonly double[] _minC;
    private readonly double[] _maxC;
    private IReadOnlyList<DateInterval>? _gaps;

    /// <summary>Copies both arrays; a day is either NaN in both or a valid <see cref="DailyTemperature"/>.</summary>
    public TemperatureSeries(LocalDate start, double[] minC, double[] maxC)
        : this(start, Copy(minC), Copy(maxC), validate: true)
    {
    }

    private TemperatureSeries(LocalDate start, double[] minC, double[] maxC, bool validate)
    {
        if (validate)
            RefuseFaults(start, minC, maxC);
        Start = start;
        _minC = minC;
        _maxC = maxC;
    }

    public static TemperatureSeries Empty { get; } = new(new LocalDate(1970, 1, 1), [], []);

    public LocalDate Start { get; }

    /// <summary>The last day, inclusive; the day before <see cref="Start"/> when the series is empty.</summary>
    public LocalDate End => Start.PlusDays(Count - 1);

    public int Count => _minC.Length;

    public ReadOnlySpan<double> MinC => _minC;

    public ReadOnlySpan<double> MaxC => _maxC;

    /// <summary>Every run of missing days between <see cref="Start"/> and <see cref="End"/>, oldest first.</summary>
    public IReadOnlyList<DateInterval> Gaps => _gaps ??= FindGaps();

    /// <summary>Takes days in any order; of a repeated date the last one counts.</summary>
    public static TemperatureSeries From(IEnumerable<DailyTemperature> days)
    {
        ArgumentNullException.ThrowIfNull(days);
        var all = days as IReadOnlyCollection<DailyTemperature> ?? days.ToList();
        if (all.Count == 0)
            return Empty;
        var start = all.Min(day => day.Date);
        var (minC, maxC) = Missing(Period.DaysBetween(start, all.Max(day => day.Date)) + 1);
        foreach (var day in all)
        {
            var index = Period.DaysBetween(start, day.Date);
            (minC[index], maxC[index]) = (day.MinC, day.MaxC);
        }
        return new TemperatureSeries(start, minC, maxC, validate: false);
    }

    /// <summary>Days since <see cref="Start"/>, or -1 outside the series.</summary>
    public int IndexOf(LocalDate date)
    {
        if (Count == 0 || date < Start || date > End)
            return -1;
        return Period.DaysBetween(Start, date);
    }

    public bool Has(LocalDate date) => IndexOf(date) is >= 0 and var index && !double.IsNaN(_minC[index]);

    /// <summary>Straight lines across gaps of at most so many days; longer gaps and the two open ends stay missing.</summary>
    public TemperatureSeries FillShortGaps(int longestDays)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(longestDays);
        double[] minC = [.. _minC], maxC = [.. _maxC];
        foreach (var gap in Gaps.Where(gap => gap.Length <= longestDays && gap.Start > Start && gap.End < End))
        {
            int before = IndexOf(gap.Start) - 1, after = before + gap.Length + 1;
            for (var day = before + 1; day < after; day++)
            {
                var share = (double)(day - before) / (after - before);
                minC[day] = double.Lerp(minC[before], minC[after], share);
                maxC[day] = Math.Max(minC[day], double.Lerp(maxC[before], maxC[after], share));
            }
        }
        return new TemperatureSeries(Start, minC, maxC, validate: false);
    }

    /// <summary>Up to so many days of each gap repeat the day before it; nothing depends on a later day.</summary>
    public TemperatureSeries HoldForward(int longestDays)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(longestDays);
        double[] minC = [.. _minC], maxC = [.. _maxC];
        var known = -1;
        for (var day = 0; day < minC.Length; day++)
        {
            if (!double.IsNaN(_minC[day]))
                known = day;
            else if (known >= 0 && day - known <= longestDays)
                (minC[day], maxC[day]) = (_minC[known], _maxC[known]);
        }
        return new TemperatureSeries(Start, minC, maxC, validate: false);
    }

    /// <summary>
    /// The days from <paramref name="from"/> to <paramref name="to"/>, both inclusive, missing where this series has none.
    /// </summary>
    public TemperatureSeries Slice(LocalDate from, LocalDate to)
    {
        if (to < from)
            throw new ArgumentException($"The slice would end on {to:R} before it starts on {from:R}.", nameof(to));
        var (minC, maxC) = Missing(Period.DaysBetween(from, to) + 1);
        var slice = new TemperatureSeries(from, minC, maxC, validate: false);
        CopyInto(slice);
        return slice;
    }

    /// <summary>Both series over the union of their days; where <paramref name="better"/> has a day, that one counts.</summary>
    public TemperatureSeries OverlaidWith(TemperatureSeries better)
    {
        ArgumentNullException.ThrowIfNull(better);
        if (better.Count == 0)
            return this;
        if (Count == 0)
            return better;
        var union = Slice(LocalDate.Min(Start, better.Start), LocalDate.Max(End, better.End));
        better.CopyInto(union);
        return union;
    }

    /// <summary>Every day warmer by <paramref name="addC"/>, for a difference in height or an owner's offset.</summary>
    public TemperatureSeries ShiftedBy(double addC)
    {
        if (!double.IsFinite(addC))
            throw new ArgumentOutOfRangeException(nameof(addC), addC, "The shift must be a finite number of °C.");
        double[] minC = [.. _minC], maxC = [.. _maxC];
        for (var day = 0; day < minC.Length; day++)
            (minC[day], maxC[day]) = (minC[day] + addC, maxC[day] + addC);
        return new TemperatureSeries(Start, minC, maxC, validate: true);
    }

    // Writes the days this series has over the target's; the target is still private to its maker.
    private void CopyInto(TemperatureSeries target)
    {
        var offset = Period.DaysBetween(target.Start, Start);
        var last = Math.Min(Count, target.Count - offset);
        for (var day = Math.Max(0, -offset); day < last; day++)
        {
            if (double.IsNaN(_minC[day]))
                continue;
            target._minC[day + offset] = _minC[day];
            target._maxC[day + offset] = _maxC[day];
        }
    }

    private List<DateInterval> FindGaps()
    {
        var gaps = new List<DateInterval>();
        for (var day = 0; day < Count; day++)
        {
            if (!double.IsNaN(_minC[day]))
                continue;
            var first = day;
            while (day + 1 < Count && double.IsNaN(_minC[day + 1]))
                day++;
            gaps.Add(new DateInterval(Start.PlusDays(first), Start.PlusDays(day)));
        }
        return gaps;
    }

    private static void RefuseFaults(LocalDate start, double[] minC, double[] maxC)
    {
        if (minC.Length != maxC.Length)
            throw new ArgumentException($"There are {minC.Length} minima but {maxC.Length} maxima.", nameof(maxC));
        for (var day = 0; day < minC.Length; day++)
        {
            if (double.IsNaN(minC[day]) && double.IsNaN(maxC[day]))
                continue;
            if (DailyTemperature.Fault(minC[day], maxC[day]) is { } fault)
                throw new ArgumentException($"{start.PlusDays(day):R}: {fault}", nameof(minC));
        }
    }

    private static (double[] MinC, double[] MaxC) Missing(int days)
    {
        double[] minC = new double[days], maxC = new double[days];
        minC.AsSpan().Fill(double.NaN);
        maxC.AsSpan().Fill(double.NaN);
        return (minC, maxC);
    }

    private static double[] Copy(double[] values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return [.. values];
    }
}
