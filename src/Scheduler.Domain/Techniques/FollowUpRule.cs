using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>A promise made by an answer. <see cref="On"/> lists the verdicts that make it; logged work makes those of <c>do-now</c>.</summary>
public sealed record FollowUpRule(
    AppliesTo For, IReadOnlyList<Verdict> On, string What, Trigger When, string? Technique, string Text, Provenance Provenance) : IRuleRow
{
    public FollowUpKind Kind { get; init; } = Technique is null ? FollowUpKind.Look : FollowUpKind.Work;
    /// <summary>Names of the facts of an observation that answer it (see <c>Promises/AnswerFields</c>); empty: any look does.</summary>
    public IReadOnlyList<string> AnsweredBy { get; init; } = [];
}

/// <summary>Work to do, a look to take, or a time to rest that comes and goes by itself and asks for nothing.</summary>
public enum FollowUpKind { Work, Look, Rest }
