using System.Globalization;

namespace Scheduler.Domain.Planning;

/// <summary>How many people work takes for safe handling, as techniques say it: "2", or "2-3" where two can do it.</summary>
public static class Hands
{
    /// <summary>The fewest people; one where nothing is said.</summary>
    public static int Needed(string? people)
    {
        var digits = new string([.. (people ?? "").TrimStart().TakeWhile(char.IsAsciiDigit)]);
        return int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count > 1 ? count : 1;
    }
}
