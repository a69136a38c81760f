namespace Scheduler.Service.Catalog.Checks;

/// <summary>What is wrong between rules that are each well formed.</summary>
/// <param name="Contradictions">Two places that cannot both be meant; each names both.</param>
/// <param name="DeadRules">Rules that no tree of the catalog can ever meet.</param>
internal sealed record CraftFindings(IReadOnlyList<CatalogFault> Contradictions, IReadOnlyList<CatalogFault> DeadRules);

/// <summary>
/// Compares the tables of all techniques with the rules that hang on them: a table that bars what a rule names, a promise
/// of work that a table bars, a rule behind one that always fits, a condition that no tree can meet.
/// </summary>
internal static class CraftCheck
{
    public static CraftFindings Of(CatalogContent content, IReadOnlyList<YamlMap> files)
    {
        var book = new FindingBook(files);
        foreach (var technique in content.Craft.Techniques)
        {
            for (var index = 0; index < technique.Modes.Count; index++)
            {
                var site = new ModeSite(content, technique, index);
                foreach (var rules in site.Rules())
                {
                    BarredNames.Find(site, rules, book);
                    DeadRules.Find(site, rules, book);
                    BarredTargets.Find(site, rules, book);
                }
                DeadRules.FindGaps(site, book);
            }
        }
        return new CraftFindings(book.Contradictions, book.DeadRules);
    }
}
