namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// The shape of a development index: which hours count as warm, how much day length speeds them up, when counting
/// starts and how much chill lowers the need. Shapes are shared by a plant group; only the threshold is local.
/// </summary>
/// <param name="BaseC">Hours count by what they exceed this [C].</param>
/// <param name="DayLengthPower">Warmth is multiplied by (day length / 12 h) to this power.</param>
/// <param name="DaysBeforeUsual">Counting starts this many days before the plant's usual date; null: on 1 February (1 August).</param>
/// <param name="ChillRate">One chill portion adds this to the index (logarithmic units).</param>
public sealed record IndexShape(int BaseC, double DayLengthPower, int? DaysBeforeUsual, double ChillRate)
{
    // Cuttings of 19 species forced under 8 h and 12 h differed only by a fifth (Flynn and Wolkovich, New Phytologist 219, 2018);
    // a power of 3 would make it three fourths. Outdoors, days as short as that bring little warmth, and the floor changes no date.
    private const double ShortestHours = 11;
    private const int FirstOfFebruary = 153;
    private const int EarliestStart = 30;
    private const int LeastDaysFromFixedStart = 35;

    /// <summary>What a day of this length relative to 12 h weighs under a power.</summary>
    public static double LightWeight(double relativeDayLength, double power) =>
        power == 0 ? 1 : Math.Pow(Math.Max(relativeDayLength, ShortestHours / 12), power);

    /// <summary>Axis day on which counting starts for a plant with this usual axis day.</summary>
    public int StartDay(double usualDay) => DaysBeforeUsual is { } days
        ? Math.Max(EarliestStart, (int)Math.Round(usualDay - days))
        : FirstOfFebruary;

    /// <summary>A fixed start too close to the usual date would let chill alone cross the threshold.</summary>
    public bool Fits(double usualDay) => DaysBeforeUsual is not null || FirstOfFebruary <= usualDay - LeastDaysFromFixedStart;
}

/// <summary>A plant group that shares its shapes, averaged with equal weight.</summary>
public sealed record ShapeGroup(string Id, IReadOnlyList<IndexShape> Shapes);
