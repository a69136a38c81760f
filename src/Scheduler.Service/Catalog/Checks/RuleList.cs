using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog.Checks;

/// <summary>One list of a mode whose entries say for which trees they hold.</summary>
/// <param name="Key">Such as <c>modes[0].windows</c>.</param>
/// <param name="FirstCounts">Only the first entry that fits is used.</param>
internal sealed record RuleList(string Key, bool FirstCounts, IReadOnlyList<CheckedRule> Rules)
{
    /// <summary>Every tree that is not barred must find an entry.</summary>
    public bool MustCover { get; init; }
}

/// <param name="Targets">Techniques it sends the owner to.</param>
/// <param name="AlsoBarred">It also speaks to trees that the tables bar.</param>
internal sealed record CheckedRule(AppliesTo For, IReadOnlyList<string> Targets, bool AlsoBarred);
