namespace Scheduler.Domain.Techniques;

/// <summary>How much: the catalog's entries for this tree, cut to what the cap on leaf area leaves.</summary>
internal static class Amounts
{
    private const string TreeMost = "treePercentMax";

    public static IReadOnlyList<IReadOnlyDictionary<string, object>> Entries(Judgement judgement)
    {
        if (Rule(judgement) is not { } rule)
            return [];
        if (!IsCut(judgement, out var room))
            return rule.Entries;
        var entries = rule.Entries.Where(entry => !entry.ContainsKey(TreeMost)).ToList();
        entries.Add(new Dictionary<string, object> { [TreeMost] = room });
        return entries;
    }

    public static string? Text(Judgement judgement)
    {
        if (Rule(judgement) is not { } rule)
            return null;
        return IsCut(judgement, out var room) ? $"{rule.Text} At most {room} % of the leaves now, because some went already." : rule.Text;
    }

    private static AmountRule? Rule(Judgement judgement) => judgement.Mode.Amounts.FirstOrDefault(rule => rule.For.Fits(judgement.Year));

    private static bool IsCut(Judgement judgement, out double room)
    {
        room = Math.Floor(judgement.LeafRoomPercent ?? 100);
        return room < LoadBudget.LoadOf(judgement.Technique, judgement.Mode).LeafAreaPercent;
    }
}
