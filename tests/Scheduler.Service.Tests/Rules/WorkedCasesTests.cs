using System.Text.Json;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// The twelve worked cases as far as they speak of techniques that have rules, part by part: branch, crown zone, mode.
/// What has no rules yet is named in the output.
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
            if (!HasRules(advice, expected))
            {
                output.WriteLine($"not compared, no rules yet: {expected.GetProperty("technique")} {CaseAnswer.PartOf(expected)}");
                continue;
            }
            looked++;
            var about = $"{id} {expected.GetProperty("technique")} {CaseAnswer.PartOf(expected)}";
            faults.AddRange(CaseAnswer.Find(advice, expected) is { } answer
                ? answer.Faults(expected).Select(fault => $"{about}: {fault}")
                : [$"{about}: no answer for this part"]);
        }
        foreach (var forbidden in worked.Forbidden)
        {
            if (HasRules(advice, forbidden) && CaseAnswer.Find(advice, forbidden)?.Verdict == forbidden.GetProperty("verdict").GetString())
                faults.Add($"{id} must not say {forbidden}");
        }
        output.WriteLine($"{looked} answers compared");
        Assert.True(looked > 0, "nothing compared");
        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults));
    }

    private static bool HasRules(IReadOnlyList<TechniqueAdvice> advice, JsonElement about) =>
        advice.Any(one => one.Technique == about.GetProperty("technique").GetString());
}

/// <summary>One answer, of a technique or of one of its modes, held against what a case expects.</summary>
internal sealed record CaseAnswer(
    string Verdict, IReadOnlyList<Reason> Reasons, IReadOnlyList<IReadOnlyDictionary<string, object>> Amount, string? Hold,
    Trigger? Opens, Trigger? Closes, Trigger? BarredUntil, Fallback? Fallback, IReadOnlyList<FollowUp> FollowUps, int? Minutes, Sessions? Sessions)
{
    /// <summary>The answer a case speaks of: without branch, zone and mode the tree's; null: there is no such part.</summary>
    public static CaseAnswer? Find(IReadOnlyList<TechniqueAdvice> all, JsonElement about)
    {
        var advice = all.Single(one => one.Technique == about.GetProperty("technique").GetString());
        var (branch, zone, mode) = (Text(about, "branch"), Text(about, "crownZone"), Text(about, "mode"));
        if (branch is null && zone is null && mode is null)
        {
            return new CaseAnswer(Ids.Of(advice.Verdict), advice.Reasons, advice.Amount, advice.Hold, advice.Opens, advice.Closes,
                advice.BarredUntil, advice.Fallback, advice.FollowUps, advice.Minutes, advice.Sessions);
        }
        // Of a mode alone the first verdict among its parts, as for the tree.
        var parts = advice.Parts.Where(part => (branch is null || part.Branch == branch) && (mode is null || part.Mode == mode)
            && (zone is null || part.Branch is null && part.CrownZone is { } own && Ids.Of(own) == zone));
        return parts.MinBy(part => part.Verdict) is not { } found ? null : new CaseAnswer(Ids.Of(found.Verdict), found.Reasons, found.Amount, found.Hold,
            found.Opens, found.Closes, found.BarredUntil, found.Fallback, found.FollowUps, found.Minutes, found.Sessions);
    }

    public static string PartOf(JsonElement about) =>
        string.Join(" ", new[] { Text(about, "branch"), Text(about, "crownZone"), Text(about, "mode") }.Where(part => part is not null));

    private static string? Text(JsonElement element, string name) => element.TryGetProperty(name, out var text) ? text.GetString() : null;

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
