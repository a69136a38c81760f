using System.Text.Json;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// The twelve worked cases as far as they speak of techniques that have rules, for the tree as a whole. What a case says
/// of the top is the tree's answer too, because the part that is farthest decides.
/// </summary>
public class WorkedCasesTests(ITestOutputHelper output)
{
    public static TheoryData<string> Cases => [.. Enumerable.Range(1, 12).Select(number => $"case-{number:00}")];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Case_IsAnsweredAsWorkedOut(string id)
    {
        if (WorkedCase.File is null)
        {
            output.WriteLine("../shared/domain/cases.json is absent: worked cases not tested");
            return;
        }
        var worked = WorkedCase.All().Single(one => one.Id == id);
        var advice = worked.Advice();
        var faults = new List<string>();
        var looked = 0;
        foreach (var expected in worked.Expected)
        {
            if (Answer(advice, expected) is not { } answer)
                continue;
            looked++;
            faults.AddRange(answer.Faults(expected).Select(fault => $"{id} {expected.GetProperty("technique")}: {fault}"));
        }
        foreach (var forbidden in worked.Forbidden)
        {
            if (Answer(advice, forbidden) is { } answer && answer.Verdict == forbidden.GetProperty("verdict").GetString())
                faults.Add($"{id} must not say {forbidden}");
        }
        output.WriteLine($"{looked} answers compared");
        Assert.True(looked > 0, "nothing compared");
        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults));
    }

    private static CaseAnswer? Answer(IReadOnlyList<TechniqueAdvice> advice, JsonElement about)
    {
        // Branch B4 of the third case has the stage and the goal of its tree, so what bars or frees it holds for the tree.
        if (about.TryGetProperty("branch", out var branch) && !(branch.GetString() == "B4" && about.GetProperty("verdict").GetString() is "not-allowed" or "leave"))
            return null;
        if (about.TryGetProperty("crownZone", out var zone) && zone.GetString() != "top")
            return null;
        var technique = about.GetProperty("technique").GetString();
        return advice.FirstOrDefault(one => one.Technique == technique) is { } found
            ? CaseAnswer.Of(found, about.TryGetProperty("mode", out var mode) ? mode.GetString() : null)
            : null;
    }
}

/// <summary>One answer, of a technique or of one of its modes, held against what a case expects.</summary>
internal sealed record CaseAnswer(
    string Verdict, IReadOnlyList<Reason> Reasons, IReadOnlyList<IReadOnlyDictionary<string, object>> Amount, string? Hold,
    Trigger? Opens, Trigger? Closes, Trigger? BarredUntil, Fallback? Fallback, IReadOnlyList<FollowUp> FollowUps, int? Minutes, Sessions? Sessions)
{
    public static CaseAnswer Of(TechniqueAdvice advice, string? mode)
    {
        if (mode is null)
        {
            return new CaseAnswer(Ids.Of(advice.Verdict), advice.Reasons, advice.Amount, advice.Hold, advice.Opens, advice.Closes,
                advice.BarredUntil, advice.Fallback, advice.FollowUps, advice.Minutes, advice.Sessions);
        }
        var part = advice.Parts.Single(part => part.Mode == mode);
        return new CaseAnswer(Ids.Of(part.Verdict), part.Reasons, part.Amount, part.Hold, part.Opens, part.Closes, part.BarredUntil,
            part.Fallback, part.FollowUps, part.Minutes, part.Sessions);
    }

    public IEnumerable<string> Faults(JsonElement expected)
    {
        if (expected.GetProperty("verdict").GetString() != Verdict)
            yield return $"verdict {Verdict} ({string.Join("; ", Reasons.Select(reason => $"{reason.Id}: {reason.Text}"))}), expected {expected.GetProperty("verdict")}";
        foreach (var reason in expected.GetProperty("reasons").EnumerateArray())
        {
            if (!Reasons.Any(one => one.Id == reason.GetString()))
                yield return $"reason {reason} is missing among {string.Join(", ", Reasons.Select(one => one.Id))}";
        }
        if (expected.TryGetProperty("hold", out var hold) && hold.GetString() != Hold)
            yield return $"hold {Hold}, expected {hold}";
        foreach (var (name, trigger) in new[] { ("opens", Opens), ("closes", Closes), ("barredUntil", BarredUntil) })
        {
            if (expected.TryGetProperty(name, out var wanted) && Reading.Canonical(wanted) != Reading.Canonical(trigger?.Fields))
                yield return $"{name} {Reading.Canonical(trigger?.Fields)}, expected {Reading.Canonical(wanted)}";
        }
        if (expected.TryGetProperty("minutes", out var minutes) && minutes.GetInt32() != Minutes)
            yield return $"minutes {Minutes}, expected {minutes}";
        if (expected.TryGetProperty("sessions", out var sessions) && Reading.Canonical(sessions) != $"[{Sessions?.Low},{Sessions?.High}]")
            yield return $"sessions {Sessions}, expected {sessions}";
        if (expected.TryGetProperty("amount", out var amount))
        {
            foreach (var entry in amount.EnumerateArray().Where(entry => !IsMet(entry)))
                yield return $"amount {entry} is missing among {Reading.Canonical(Amount)}";
        }
        if (expected.TryGetProperty("fallback", out var fallback))
        {
            var techniques = fallback.TryGetProperty("technique", out var one) ? Reading.Canonical(new[] { one.GetString() }) : Reading.Canonical(fallback.GetProperty("techniques"));
            if (techniques != Reading.Canonical(Fallback?.Techniques) || Reading.Canonical(fallback.GetProperty("when")) != Reading.Canonical(Fallback?.When?.Fields))
                yield return $"fallback {Reading.Canonical(Fallback?.Techniques)} when {Reading.Canonical(Fallback?.When?.Fields)}, expected {fallback}";
        }
        foreach (var followUp in expected.GetProperty("followUps").EnumerateArray().Where(followUp => !IsPromised(followUp)))
            yield return $"follow-up {followUp} is not promised";
    }

    // For the same zone and shoots, every value the case names.
    private bool IsMet(JsonElement expected) => Amount.Any(entry => expected.EnumerateObject().All(field =>
        entry.TryGetValue(field.Name, out var value) && Reading.Canonical(value) == Reading.Canonical(field.Value)));

    private bool IsPromised(JsonElement expected)
    {
        var technique = expected.TryGetProperty("technique", out var named) ? named.GetString() : null;
        return FollowUps.Any(followUp => (technique is null || followUp.Technique == technique)
            && Reading.Canonical(followUp.When.Fields) == Reading.Canonical(expected.GetProperty("when")));
    }
}
