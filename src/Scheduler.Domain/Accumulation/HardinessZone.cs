using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Scheduler.Domain.Accumulation;

/// <summary>
/// A half-zone of winter hardiness, 1a to 13b: a 5 °F step of the mean annual extreme minimum temperature. 1a begins at -60 °F.
/// </summary>
/// <remarks>
/// Plant Hardiness Zone Map, USDA Agricultural Research Service. Each half-zone holds its lower bound. Places colder than 1a or warmer
/// than 13b are given those.
/// </remarks>
public readonly record struct HardinessZone : IComparable<HardinessZone>
{
    private const int Count = 26;
    private const double ColdestF = -60;
    private const double StepF = 5;

    private readonly int _index;

    private HardinessZone(int index) => _index = index;

    /// <summary>1 to 13.</summary>
    public int Number => _index / 2 + 1;

    /// <summary><c>a</c>, the colder half, or <c>b</c>.</summary>
    public char Half => _index % 2 == 0 ? 'a' : 'b';

    /// <summary>The lowest mean annual extreme minimum of the half-zone, inclusive.</summary>
    public double LowC => Fahrenheit.ToC(ColdestF + StepF * _index);

    /// <summary>The upper bound, where the next half-zone begins.</summary>
    public double HighC => Fahrenheit.ToC(ColdestF + StepF * (_index + 1));

    /// <summary>All half-zones, coldest first.</summary>
    public static IReadOnlyList<HardinessZone> All { get; } = [.. Enumerable.Range(0, Count).Select(index => new HardinessZone(index))];

    public static HardinessZone OfExtremeMinimum(double meanExtremeMinC)
    {
        if (!double.IsFinite(meanExtremeMinC))
            throw new ArgumentOutOfRangeException(nameof(meanExtremeMinC), meanExtremeMinC, "The temperature must be finite.");
        // The nudge keeps a bound that was converted from °F, such as -17.777…, on its own side despite rounding.
        var steps = Math.Floor((meanExtremeMinC * 9 / 5 + 32 - ColdestF) / StepF + 1e-9);
        return new HardinessZone((int)Math.Clamp(steps, 0, Count - 1));
    }

    public static bool TryParse([NotNullWhen(true)] string? text, out HardinessZone zone)
    {
        zone = default;
        if (text is not [.. { Length: 1 or 2 } number, 'a' or 'b' or 'A' or 'B'])
            return false;
        if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var value) || value > Count / 2 || number[0] == '0')
            return false;
        zone = new HardinessZone(2 * (value - 1) + (text[^1] is 'b' or 'B' ? 1 : 0));
        return true;
    }

    public static HardinessZone Parse(string text) =>
        TryParse(text, out var zone) ? zone : throw new FormatException($"'{text}' is no hardiness zone; they run from 1a to 13b.");

    public int CompareTo(HardinessZone other) => _index.CompareTo(other._index);

    public static bool operator <(HardinessZone left, HardinessZone right) => left._index < right._index;

    public static bool operator >(HardinessZone left, HardinessZone right) => left._index > right._index;

    public static bool operator <=(HardinessZone left, HardinessZone right) => left._index <= right._index;

    public static bool operator >=(HardinessZone left, HardinessZone right) => left._index >= right._index;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Number}{Half}");
}
