namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// The growth clock of one species in one garden: a <see cref="CodeClock"/> for every growth point counted from the start
/// of the heat year, learned from the garden's own springs as far as there are any.
/// </summary>
public sealed class LocalClock
{
    private const double FewChillPortions = 25;
    private const double SmallSlope = 0.6;
    private readonly IReadOnlyDictionary<int, CodeClock> _codes;
    private readonly SiteSprings _site;
    private readonly Dictionary<(int, int), double?> _between = [];

    internal LocalClock(
        GrowthScale scale, SiteSprings site, ClockRules rules, IReadOnlyDictionary<int, CodeClock> codes, (int Leaf, int Flower) springs, double leastChill)
    {
        (Scale, _site, Rules, _codes, Springs, LeastChillPortions) = (scale, site, rules, codes, springs, leastChill);
    }

    public GrowthScale Scale { get; }
    public ClockRules Rules { get; }

    /// <summary>Own springs the leaf and the flower codes have learned from.</summary>
    public (int Leaf, int Flower) Springs { get; }

    /// <summary>Under this chill no growth point comes at all [portions].</summary>
    public double LeastChillPortions { get; }

    /// <summary>Null for codes counted otherwise, absent in the species, or never reached here.</summary>
    public CodeClock? Of(int bbch) => _codes.GetValueOrDefault(bbch);

    /// <summary>True where winters are too mild, or own springs follow the clock too loosely, for temperature to tell much.</summary>
    public bool TellsLittle(int bbch) =>
        Of(bbch) is { } code && (code.Slope < SmallSlope || (Scale.Species.ThermalTimes.ChillPortions.Value > 0 && IsMild(_site)));

    internal static bool IsMild(SiteSprings site) => site.ChillByFebruary < FewChillPortions;

    /// <summary>Warmth above 4 C that usually lies between two growth points [C*d]; null where past years do not tell.</summary>
    public double? WarmthBetween(int earlier, int later)
    {
        lock (_between)
        {
            if (!_between.TryGetValue((earlier, later), out var known))
                _between[(earlier, later)] = known = Of(earlier) is { } first && Of(later) is { } second ? _site.WarmthBetween(first, second) : null;
            return known;
        }
    }
}
