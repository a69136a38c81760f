namespace Scheduler.Domain.Phenology.Learning;

/// <summary>One spring in which two phases of one plant were seen.</summary>
/// <param name="EarlierIndex">Which of the earlier phase's dates.</param>
/// <param name="LaterIndex">Which of the later phase's dates.</param>
internal sealed record SeenPair(TrainedSeries Earlier, int EarlierIndex, TrainedSeries Later, int LaterIndex);

/// <summary>
/// Sets the width of ranges of a phase whose plant has shown an earlier one that spring, by what forecasts of the springs taught
/// would have needed: with all weather known, and issued on the day the earlier phase was seen; between the two it is
/// interpolated. Every pair of phases has factors of its own, worked out when first asked for.
/// </summary>
/// <param name="clock">The clock whose dates taught.</param>
/// <param name="hindcast">The range as reckoned for the later phase of a pair without that spring, issued on an axis day (null: the weather is known).</param>
internal sealed class GivenBands(SharedClock clock, Func<SeenPair, int?, DayForecast> hindcast)
{
    // The share of the error that an earlier phase leaves is a rough guess: the springs seen soon outweigh it.
    private const double PriorYears = 3;
    private readonly Dictionary<(string Earlier, string Later, bool Ahead), BandCalibration> _pairs = [];

    /// <summary>The range told.</summary>
    /// <param name="lastDay">Last axis day whose weather is known.</param>
    /// <param name="issuedDay">The phase has not come by this day; null: it may have.</param>
    public DayForecast Scaled(TrainedSeries earlier, TrainedSeries later, DayForecast reckoned, int lastDay, int? issuedDay)
    {
        if (!reckoned.IsExpected)
            return reckoned;
        var share = Math.Clamp((reckoned.Likely - lastDay) / Math.Max(1, later.UsualDay - earlier.UsualDay), 0, 1);
        var factor = double.Lerp(
            share < 1 ? BandScale.NewYears * Of(earlier, later, false) : 0,
            share > 0 ? BandScale.NewYearsAhead * Of(earlier, later, true) : 0, share);
        return BandScale.Widened(reckoned, factor, issuedDay);
    }

    private double Of(TrainedSeries earlier, TrainedSeries later, bool ahead)
    {
        var pair = (earlier.Key.Phase, later.Key.Phase, ahead);
        if (!_pairs.TryGetValue(pair, out var known))
            _pairs[pair] = known = Learned(earlier.Key.Phase, later.Key.Phase, ahead);
        return known.Of(later.Key.Site, later.Group.Id);
    }

    private BandCalibration Learned(string earlierPhase, string laterPhase, bool ahead) => new(clock.Taught
        .Where(later => later.Key.Phase == laterPhase && clock.DatesOf(later.Key).Count >= 2)
        .Select(later => (Later: later, Earlier: clock.EarlierPhases(later).FirstOrDefault(earlier => earlier.Key.Phase == earlierPhase)))
        .Where(pair => pair.Earlier is not null)
        .GroupBy(pair => (pair.Later.Key.Site, pair.Later.Group.Id))
        .ToDictionary(unit => unit.Key, unit => (IReadOnlyList<(int, double)>)[.. unit.SelectMany(pair => Scores(pair.Earlier!, pair.Later, ahead))]), PriorYears);

    private IEnumerable<(int Year, double Score)> Scores(TrainedSeries earlier, TrainedSeries later, bool ahead)
    {
        var (first, dates) = (clock.DatesOf(earlier.Key), clock.DatesOf(later.Key));
        for (var date = 0; date < dates.Count; date++)
        {
            var seen = 0;
            while (seen < first.Count && first[seen].Year != dates[date].Year)
                seen++;
            if (seen == first.Count || first[seen].Day >= dates[date].Day)
                continue;
            int? issued = ahead ? (int)Math.Floor(first[seen].Day) : null;
            if (hindcast(new SeenPair(earlier, seen, later, date), issued) is { IsExpected: true } forecast)
                yield return (dates[date].Year, BandCalibration.Score(forecast, dates[date].Day));
        }
    }
}
