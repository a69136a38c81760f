using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>Says which parts of a tree an answer holds for, where they differ.</summary>
internal static class PartWords
{
    /// <summary>The amount as a sentence, with the parts that are worked now, later or not at all.</summary>
    public static string? Amount(Judged judged)
    {
        var text = Amounts.Text(judged.Judgement);
        return Which(judged) is { } which ? text is null ? which : $"{text} {which}" : text;
    }

    /// <summary>The amounts of the parts that share the tree's verdict, each with its part, and of those that are left.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, object>> Entries(Judged judged)
    {
        if (judged.Parts.Count == 1 || IsNotWork(judged.Judgement))
            return Amounts.Entries(judged.Judgement);
        var entries = new List<IReadOnlyDictionary<string, object>>();
        foreach (var part in judged.Parts)
        {
            if (part.Verdict == judged.Judgement.Verdict || IsLeft(part))
                entries.AddRange(Amounts.Entries(part).Select(entry => Of(part.Year.Part, entry)));
        }
        return entries;
    }

    private static string? Which(Judged judged)
    {
        if (judged.Parts.Count == 1 || judged.Parts.All(part => part.Verdict == judged.Judgement.Verdict))
            return null;
        var sentences = judged.Parts.GroupBy(part => part.Verdict).OrderBy(parts => parts.Key)
            .Select(parts => $"{Heading(parts.Key)}: {string.Join(", ", parts.Select(part => part.Year.Part.Words))}.");
        return string.Join(" ", sentences);
    }

    private static string Heading(Verdict verdict) => verdict switch
    {
        Verdict.DoNow => "Now",
        Verdict.Ask => "Look first",
        Verdict.Wait => "Later",
        Verdict.Missed => "Too late",
        Verdict.Leave => "Leave",
        _ => "Not allowed"
    };

    private static bool IsLeft(Judgement part) => part.Reasons.Any(reason => reason.Id == Judge.WeakAndInnerStay);

    private static bool IsNotWork(Judgement judgement) => judgement.Mode.IsStatement || judgement.Verdict is Verdict.NotAllowed or Verdict.Leave or Verdict.Missed;

    private static Dictionary<string, object> Of(TreePart part, IReadOnlyDictionary<string, object> entry)
    {
        var named = new Dictionary<string, object>();
        if (part.Branch is { } branch)
            named["branch"] = branch.Id;
        if (part.CrownZone is { } zone)
            named["crownZone"] = Ids.Of(zone);
        foreach (var (name, value) in entry)
            named[name] = value;
        return named;
    }
}
