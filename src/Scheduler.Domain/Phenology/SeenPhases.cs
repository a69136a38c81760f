using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// What was seen of one growth year, brought in order: of a code seen often the first date counts, a code between two
/// placeable ones also counts as the lower one, and nothing was later than what comes after it.
/// </summary>
internal sealed class SeenPhases
{
    private readonly List<SeenPhase> _seen;
    private readonly GrowthScale _scale;

    public SeenPhases(GrowthScale scale, GrowthYear year, IEnumerable<SeenPhase> seen)
    {
        _scale = scale;
        var first = seen.Where(phase => Covers(year, phase))
            .SelectMany(phase => new[] { phase, phase with { Bbch = GrowthScale.Named(phase.Bbch) ?? phase.Bbch } })
            .GroupBy(phase => phase.Bbch)
            .Select(group => group.MinBy(phase => phase.Date)!)
            .ToList();
        _seen = [.. first
            .Select(phase => phase with
            {
                Date = first.Where(later => later == phase || ComesBefore(phase.Bbch, later.Bbch)).Min(later => later.Date),
            })
            .OrderBy(phase => phase.Date).ThenBy(phase => phase.Bbch)];
        var growth = _seen.Find(phase => phase.Bbch > 0 && GrowthScale.TrackOf(phase.Bbch) == 0)?.Date;
        var end = growth < year.DateOf(year.MidsummerDay) ? growth : year.DateOf(year.MidsummerDay);
        DormantUntil = seen.Where(phase => phase.Bbch == 0 && year.Contains(phase.Date) && phase.Date < end).Max(phase => (LocalDate?)phase.Date);
    }

    /// <summary>The last spring day on which the buds were seen still closed; null: none.</summary>
    public LocalDate? DormantUntil { get; }

    public LocalDate? On(int bbch) => _seen.Find(phase => phase.Bbch == bbch)?.Date;

    public SeenPhase? Last(bool flowers) =>
        _seen.FindLast(phase => phase.Bbch > 0 && GrowthScale.IsFlowerCode(phase.Bbch) == flowers);

    /// <summary>The last thing seen before this code on its own track.</summary>
    public SeenPhase? LastBefore(int bbch) => _seen.FindLast(phase => ComesBefore(phase.Bbch, bbch));

    /// <summary>The first thing seen after this code on its own track.</summary>
    public SeenPhase? FirstAfter(int bbch) => _seen.Find(phase => ComesBefore(bbch, phase.Bbch));

    // Leaf codes (11-19) and shoot codes (31-39) run side by side: only the heat each needs tells which comes first.
    private bool ComesBefore(int first, int second)
    {
        if (first <= 0 || second <= 0 || first == second || GrowthScale.TrackOf(first) != GrowthScale.TrackOf(second))
            return false;
        return SinceStart(first) is { } a && SinceStart(second) is { } b && a != b ? a < b : first < second;
    }

    private double? SinceStart(int bbch) =>
        _scale.FromHeatStartCd(bbch) ?? _scale.FromHeatStartCd(11) + _scale.AfterFirstLeafCd(bbch);

    // December (June) belongs to two growth years: leaf fall there ends the old one, everything else begins the new one.
    private static bool Covers(GrowthYear year, SeenPhase phase) => phase.Bbch > 90
        ? phase.Date >= year.HeatStart && phase.Date <= year.AxisEnd
        : year.Contains(phase.Date);
}
