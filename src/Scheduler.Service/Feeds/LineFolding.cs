using System.Text;

namespace Scheduler.Service.Feeds;

/// <summary>
/// Content lines of at most 75 octets of UTF-8, a fold being CRLF and one blank (RFC 5545 section 3.1). A fold never
/// falls inside a character: one such fold makes strict readers drop the whole calendar.
/// </summary>
internal static class LineFolding
{
    private const int MaxOctets = 75;
    private const string Fold = "\r\n ";

    /// <summary>Folds anew whatever was folded before, wherever that was.</summary>
    public static string Refold(string calendar)
    {
        var folded = new StringBuilder(calendar.Length + calendar.Length / 32);
        var whole = calendar.Replace(Fold, "", StringComparison.Ordinal);
        foreach (var line in whole.Split("\r\n", StringSplitOptions.RemoveEmptyEntries))
        {
            Append(folded, line);
            folded.Append("\r\n");
        }
        return folded.ToString();
    }

    private static void Append(StringBuilder folded, string line)
    {
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > MaxOctets)
            {
                folded.Append(Fold);
                octets = 1;
            }
            folded.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }
    }
}
