namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Sharpens a phase by an earlier one of the same plant seen the same spring: the warmth its kind usually takes between
/// the two, counted from the date seen, averaged with the clock's own date shifted by most of the error it made earlier.
/// </summary>
/// <remarks>
/// Warmth: ln(5 + sum of hourly warmth above 4 C since the date seen), mean over years of the same plant with two
/// pseudo-years of its group's mean. Phases more than three weeks apart share little error: a smaller shift only.
/// </remarks>
public sealed class SeenEarlier
{
    private const int WarmthBaseC = 4;
    private const double PseudoYears = 2;
    private const double NearDays = 21;
    private const double NearShift = 0.7;
    private const double FarShift = 0.4;
    private static readonly IndexShape Warmth = new(WarmthBaseC, 0, null, 0);

    private readonly List<(int Year, double Need)> _own;
    private readonly List<(int Year, double Need)> _group;
    private readonly Dictionary<int, double?> _needs = [];
    private readonly bool _near;

    public SeenEarlier(SharedClock clock, TrainedSeries earlier, TrainedSeries later)
    {
        Earlier = earlier;
        _near = later.UsualDay - earlier.UsualDay <= NearDays;
        _own = [.. Needs(clock, earlier.Key, later.Key)];
        _group = [.. clock.PairsLike(earlier.Key, later.Key).SelectMany(pair => Needs(clock, pair.Earlier, pair.Later))];
    }

    public TrainedSeries Earlier { get; }

    /// <summary>The date of the later phase in one course of the weather, given its plain forecast and the error of the earlier one.</summary>
    /// <param name="withoutYear">A year that must not teach; null: all do.</param>
    public double Date(SeasonDrivers known, SeasonDrivers trace, int lastDay, double seenDay, double plainDate, double earlierError, int? withoutYear = null)
    {
        var shifted = plainDate + (_near ? NearShift : FarShift) * earlierError;
        if (!_near || Need(withoutYear) is not { } need)
            return Math.Max(shifted, seenDay);
        var warm = WarmDate(known, trace, lastDay, seenDay, need);
        return Math.Max(double.IsFinite(warm) ? (shifted + warm) / 2 : shifted, seenDay);
    }

    /// <summary>Share of the plain error that is left.</summary>
    public double ErrorShare => _near ? 0.7 : 0.9;

    private double? Need(int? withoutYear) =>
        _needs.TryGetValue(withoutYear ?? -1, out var known) ? known : _needs[withoutYear ?? -1] = Learned(withoutYear);

    private double? Learned(int? withoutYear)
    {
        var group = _group.Where(one => one.Year != withoutYear).Select(one => one.Need).DefaultIfEmpty(double.NaN).Average();
        if (double.IsNaN(group))
            return null;
        double sum = PseudoYears * group, years = PseudoYears;
        foreach (var (_, need) in _own.Where(one => one.Year != withoutYear))
            (sum, years) = (sum + need, years + 1);
        return sum / years;
    }

    private static double WarmDate(SeasonDrivers known, SeasonDrivers trace, int lastDay, double seenDay, double need)
    {
        double[] growth = known.Growth(Warmth), later = trace.Growth(Warmth);
        var sum = 0d;
        for (var day = (int)seenDay + 1; day < Math.Min(growth.Length, later.Length); day++)
        {
            var gain = day <= lastDay ? growth[day] : later[day];
            sum += gain;
            if (Math.Log(5 + sum) >= need)
                return day + 0.5 - (gain > 0 ? Math.Min(1, (sum - (Math.Exp(need) - 5)) / gain) : 0);
        }
        return double.PositiveInfinity;
    }

    private static IEnumerable<(int Year, double Need)> Needs(SharedClock clock, SeriesKey earlier, SeriesKey later)
    {
        var first = clock.DatesOf(earlier).ToDictionary(date => date.Year, date => date.Day);
        foreach (var date in clock.DatesOf(later))
        {
            if (!first.TryGetValue(date.Year, out var start) || start > date.Day || clock.Site(later.Site) is not { } site)
                continue;
            var growth = site.Season(date.Year).Growth(Warmth);
            var sum = 0d;
            for (var day = (int)start + 1; day <= (int)date.Day; day++)
                sum += day == (int)date.Day ? growth[day] / 2 : growth[day];
            yield return (date.Year, Math.Log(5 + sum));
        }
    }
}
