namespace Scheduler.Service.Tests.Feeds;

/// <summary>Names that calendars stumble over, each moved through every position of a folded line.</summary>
internal static class FeedNames
{
    private const int Positions = 80;

    private static readonly FeedName[] Names =
    [
        FeedName.Plain("Klon, \"Stary\"; dąb: łuk"),
        new(@"C:\new\nails \, \; \\", "C:/new/nails /, /; //", "C:/new/nails /, /; //"),
        new("Zażółć\r\ngęślą\njaźń\rjuż", "Zażółć gęślą jaźń już", "Zażółć\ngęślą\njaźń\njuż"),
        FeedName.Plain("🌳🌲 👩‍🌾 é 🇵🇱 ⛏️"),
        FeedName.Plain("'%41 &amp; <b> ^n {x} = a@b #1")
    ];

    /// <summary>Each name behind zero to 79 letters.</summary>
    public static IEnumerable<FeedName> Sweep() =>
        from name in Names
        from padding in Enumerable.Range(0, Positions)
        select name.Behind(new string('x', padding));

    /// <summary>All names in one, behind zero to 79 letters: for readers that take their time over many events.</summary>
    public static IEnumerable<FeedName> SweepTogether()
    {
        var together = new FeedName(
            string.Join(' ', Names.Select(name => name.Written)), string.Join(' ', Names.Select(name => name.Line)), string.Join(' ', Names.Select(name => name.Lines)));
        return Enumerable.Range(0, Positions).Select(padding => together.Behind(new string('x', padding)));
    }
}

/// <summary>A text as an owner may write it, and as every reader must show it in a field of one line and of several.</summary>
internal sealed record FeedName(string Written, string Line, string Lines)
{
    public static FeedName Plain(string text) => new(text, text, text);

    public FeedName Behind(string padding) => new(padding + Written, padding + Line, padding + Lines);
}
