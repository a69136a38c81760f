using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Plans;

/// <summary>A tree's advice on one day: every technique once.</summary>
public sealed record AdviceAnswer(LocalDate Date, IReadOnlyList<TechniqueAnswer> Items);

/// <summary>One technique's answer. Reasons are ids (see /reasons); <see cref="Why"/> says the same in sentences. Conditions on
/// growth (<see cref="Opens"/> and others) are objects such as {"bbch": 10}.</summary>
public sealed record TechniqueAnswer(
    string Technique, Verdict Verdict, IReadOnlyList<string> Reasons, IReadOnlyList<string> Why,
    IReadOnlyList<IReadOnlyDictionary<string, object>> Amount, string? AmountText,
    IReadOnlyList<string> How, IReadOnlyList<string> Cautions, IReadOnlyList<string> Aftercare,
    Trigger? Opens, Trigger? Closes, string? Hold, LocalDate? HeldUntil, Trigger? BarredUntil,
    FallbackAnswer? Fallback, IReadOnlyList<FollowUpAnswer> FollowUps,
    int? Minutes, IReadOnlyList<int>? Sessions, string? People, WindowAnswer? Window, IReadOnlyList<PartAnswer> Parts)
{
    /// <summary>What earlier work promised of this technique and is due now.</summary>
    public IReadOnlyList<PromiseAnswer> Promised { get; init; } = [];

    public static TechniqueAnswer Of(TechniqueAdvice advice, WindowAnswer? window) => new(
        advice.Technique, advice.Verdict, Ids(advice.Reasons), Texts(advice.Reasons), advice.Amount, advice.AmountText,
        advice.How, advice.Cautions, advice.Aftercare, advice.Opens, advice.Closes, advice.Hold, advice.HeldUntil, advice.BarredUntil,
        Of(advice.Fallback), Of(advice.FollowUps), advice.Minutes, Of(advice.Sessions), advice.People, window,
        [.. advice.Parts.Select(Part)]);

    private static PartAnswer Part(PartAdvice part) => new(
        part.CrownZone, part.Branch, part.Mode, part.Verdict, Ids(part.Reasons), Texts(part.Reasons), part.Amount, part.AmountText,
        part.Opens, part.Closes, part.Hold, part.HeldUntil, part.BarredUntil, Of(part.Fallback), Of(part.FollowUps), part.Minutes, Of(part.Sessions));

    private static FallbackAnswer? Of(Fallback? fallback) => fallback is null ? null
        : new FallbackAnswer(fallback.Techniques.Count == 1 ? fallback.Techniques[0] : null, fallback.Techniques, fallback.When, fallback.Text);

    private static IReadOnlyList<FollowUpAnswer> Of(IReadOnlyList<FollowUp> followUps) =>
        [.. followUps.Select(follow => new FollowUpAnswer(follow.What, follow.When, follow.Technique, follow.Text))];

    private static IReadOnlyList<int>? Of(Sessions? sessions) => sessions is null ? null : [sessions.Low, sessions.High];

    private static IReadOnlyList<string> Ids(IReadOnlyList<Reason> reasons) => [.. reasons.Select(reason => reason.Id)];

    private static IReadOnlyList<string> Texts(IReadOnlyList<Reason> reasons) => [.. reasons.Select(reason => reason.Text)];
}

/// <param name="Technique">The one technique that takes over; null when there are several.</param>
public sealed record FallbackAnswer(string? Technique, IReadOnlyList<string> Techniques, Trigger? When, string Text);

public sealed record FollowUpAnswer(string What, Trigger When, string? Technique, string Text);

/// <summary>The answer for one crown zone, branch or mode; what is null does not divide the answer.</summary>
/// <param name="Branch">Id of a branch of the tree.</param>
public sealed record PartAnswer(
    CrownZone? CrownZone, string? Branch, string? Mode, Verdict Verdict, IReadOnlyList<string> Reasons, IReadOnlyList<string> Why,
    IReadOnlyList<IReadOnlyDictionary<string, object>> Amount, string? AmountText, Trigger? Opens, Trigger? Closes,
    string? Hold, LocalDate? HeldUntil, Trigger? BarredUntil, FallbackAnswer? Fallback, IReadOnlyList<FollowUpAnswer> FollowUps,
    int? Minutes, IReadOnlyList<int>? Sessions);
