namespace Scheduler.Domain.Phenology;

/// <summary>
/// Nearest-rank percentiles of days by draw. They are selected and not sorted for: three places of a list are asked for, and
/// the lists are as many as phases and windows.
/// </summary>
/// <remarks>Selection by halves: Hoare, Communications of the ACM 4 (1961), algorithm 65, from memory.</remarks>
internal static class Percentiles
{
    private const int OnStack = 512;

    /// <summary>10th, 50th and 90th percentile; infinity for an empty list.</summary>
    public static (double Early, double Likely, double Late) Of(ReadOnlySpan<double> days)
    {
        if (days.Length == 0)
            return (double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity);
        var last = days.Length - 1;
        int early = DateBand.Rank(0.1, last), likely = DateBand.Rank(0.5, last), late = DateBand.Rank(0.9, last);
        if (IsSorted(days))
            return (days[early], days[likely], days[late]);
        Span<double> copy = days.Length <= OnStack ? stackalloc double[days.Length] : new double[days.Length];
        days.CopyTo(copy);
        // What the first selection left on each side holds the other two.
        Select(copy, 0, last, likely);
        Select(copy, 0, likely, early);
        Select(copy, likely, last, late);
        return (copy[early], copy[likely], copy[late]);
    }

    /// <summary>50th percentile; infinity for an empty list.</summary>
    public static double Likely(ReadOnlySpan<double> days)
    {
        if (days.Length == 0)
            return double.PositiveInfinity;
        var likely = DateBand.Rank(0.5, days.Length - 1);
        if (IsSorted(days))
            return days[likely];
        Span<double> copy = days.Length <= OnStack ? stackalloc double[days.Length] : new double[days.Length];
        days.CopyTo(copy);
        Select(copy, 0, copy.Length - 1, likely);
        return copy[likely];
    }

    /// <summary>Whether the 50th percentile is at or before a day: ranks are counted, nothing is moved.</summary>
    public static bool IsLikelyBy(ReadOnlySpan<double> days, double day)
    {
        var come = 0;
        foreach (var one in days)
            come += one <= day ? 1 : 0;
        return days.Length > 0 && come > DateBand.Rank(0.5, days.Length - 1);
    }

    private static bool IsSorted(ReadOnlySpan<double> days)
    {
        for (var index = 1; index < days.Length; index++)
        {
            if (!(days[index - 1] <= days[index]))
                return false;
        }
        return true;
    }

    // Puts the value of one rank in its place, the smaller ones before it and the greater ones after. Not for NaN.
    private static void Select(Span<double> days, int low, int high, int rank)
    {
        while (low < high)
        {
            var pivot = days[low + (high - low) / 2];
            int left = low, right = high;
            while (left <= right)
            {
                while (days[left] < pivot)
                    left++;
                while (days[right] > pivot)
                    right--;
                if (left > right)
                    break;
                (days[left], days[right]) = (days[right], days[left]);
                left++;
                right--;
            }
            if (rank <= right)
                high = right;
            else if (rank >= left)
                low = left;
            else
                return;
        }
    }
}
