using System.Globalization;
using System.Text;

namespace Scheduler.Service.Feeds;

/// <summary>
/// Text as every calendar reader takes it alike. Some readers turn an escaped backslash into a line break and some
/// split lines at rarer separators, so neither leaves this house; nor do control characters and halves of characters.
/// </summary>
internal static class PlainText
{
    /// <summary>Several lines, parted by a line feed.</summary>
    public static string Lines(string text)
    {
        var clean = new StringBuilder(text.Length);
        var previous = '\0';
        foreach (var rune in text.EnumerateRunes())
        {
            // A carriage return with its line feed is one break.
            if (rune.Value is '\r' || IsBreak(rune.Value) && !(rune.Value is '\n' && previous is '\r'))
                clean.Append('\n');
            else if (rune.Value is '\t')
                clean.Append(' ');
            else if (rune.Value is '\\')
                clean.Append('/');
            else if (IsShown(rune))
                clean.Append(rune.ToString());
            previous = rune.IsBmp ? (char)rune.Value : '\0';
        }
        return clean.ToString().Trim();
    }

    /// <summary>One line: breaks become single blanks.</summary>
    public static string Line(string text) =>
        string.Join(' ', Lines(text).Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));

    private static bool IsBreak(int value) => value is '\n' or '\v' or '\f' or 0x85 or 0x2028 or 0x2029;

    // A lone surrogate is enumerated as the replacement character; a byte order mark inside a text shows nothing.
    private static bool IsShown(Rune rune) =>
        rune != Rune.ReplacementChar && rune.Value is not 0xFEFF
        && (rune.Value & 0xFFFE) != 0xFFFE
        && (rune.Value < 0xFDD0 || rune.Value > 0xFDEF)
        && Rune.GetUnicodeCategory(rune) is not UnicodeCategory.Control;
}
