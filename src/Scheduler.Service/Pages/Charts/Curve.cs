using System.Globalization;
using System.Text;

namespace Scheduler.Service.Pages.Charts;

/// <summary>Turns values of successive days into the strokes of a drawing that is as wide as it has days and <see cref="High"/> high.</summary>
public static class Curve
{
    /// <summary>Height of the drawing's own measure; zero is at its foot.</summary>
    public const int High = 1000;

    private const int StepDays = 3;

    /// <summary>A line through the values, from the day at <paramref name="from"/> on; empty where there is none.</summary>
    public static string Line(double[] values, double top, int from = 0)
    {
        ArgumentNullException.ThrowIfNull(values);
        var path = new StringBuilder();
        foreach (var day in Days(from, values.Length))
            Put(path, path.Length == 0 ? 'M' : 'L', day, values[day], top);
        return path.ToString();
    }

    /// <summary>The area between two lines.</summary>
    public static string Band(double[] low, double[] high, double top)
    {
        ArgumentNullException.ThrowIfNull(low);
        ArgumentNullException.ThrowIfNull(high);
        if (low.Length == 0)
            return "";
        var path = new StringBuilder(Line(high, top));
        foreach (var day in Days(0, low.Length).Reverse())
            Put(path, 'L', day, low[day], top);
        return path.Append('Z').ToString();
    }

    /// <summary>The round numbers to write beside a drawing: about five of them, the last at its top.</summary>
    public static IReadOnlyList<double> Ticks(double highest)
    {
        var rough = Math.Max(highest, 1) / 5;
        var ten = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        var step = new[] { 1, 2, 2.5, 5, 10 }.First(part => part * ten >= rough) * ten;
        return [.. Enumerable.Range(1, (int)Math.Ceiling(Math.Max(highest, 1) / step)).Select(number => number * step)];
    }

    // Every third day, and always the last.
    private static IEnumerable<int> Days(int from, int count)
    {
        for (var day = Math.Max(0, from); day < count - 1; day += StepDays)
            yield return day;
        if (count > from)
            yield return count - 1;
    }

    private static void Put(StringBuilder path, char letter, int day, double value, double top) =>
        path.Append(CultureInfo.InvariantCulture, $"{letter}{day + 1} {Math.Round(High - value / top * High)}");
}
