using System.Text.Json;
using System.Text.Json.Nodes;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.Rules;

/// <summary>The twelve worked cases as the owner meets them: everything goes in and comes out over HTTP.</summary>
public class CasesOverHttpTests(ITestOutputHelper output)
{
    public static TheoryData<string> Cases => [.. Enumerable.Range(1, 12).Select(number => $"case-{number:00}")];

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Case_IsAnsweredAsWorkedOut(string id)
    {
        if (WorkedCase.File is null)
        {
            output.WriteLine("../shared/domain/cases.json is absent: worked cases not tested");
            return;
        }
        var worked = WorkedCase.All().Single(one => one.Id == id);
        var advice = await CaseOverHttp.AdviceAsync(worked);
        var faults = new List<string>();
        foreach (var expected in worked.Expected)
            faults.AddRange(Faults(advice, expected).Select(fault => $"{Named(expected)}: {fault}"));
        foreach (var forbidden in worked.Forbidden.Where(forbidden => Answers(advice, forbidden).Any(answer => Same(answer["verdict"], forbidden.GetProperty("verdict")))))
            faults.Add($"must not say {forbidden}");
        Assert.True(faults.Count == 0, $"{id}: {faults.Count} of {worked.Expected.Count()}{Environment.NewLine}{string.Join(Environment.NewLine, faults)}");
    }

    // The forecast of the fifth case is too cool for the heat it expects, so the days of that heat are compared without the forecast.
    [Fact]
    public void FifthCase_CountsTheDaysOfItsExpectedHeat()
    {
        if (WorkedCase.File is null)
        {
            output.WriteLine("../shared/domain/cases.json is absent: not tested");
            return;
        }
        var worked = WorkedCase.All().Single(one => one.Id == "case-05");
        var expected = worked.Expected.First(one => one.GetProperty("technique").GetString() == "early-clip");
        Assert.Equal(Reading.Canonical(expected.GetProperty("closes")), Reading.Canonical(worked.Advice().Advice("early-clip").Closes!.Fields));
    }

    // Several answers may match a zone without a mode; the best one counts.
    private static IReadOnlyList<string> Faults(JsonArray advice, JsonElement expected)
    {
        var answers = Answers(advice, expected).Select(answer => FaultsOf(answer, expected).ToList()).ToList();
        return answers.Count == 0 ? ["no such answer"] : answers.MinBy(faults => faults.Count)!;
    }

    private static IEnumerable<JsonObject> Answers(JsonArray advice, JsonElement about)
    {
        var item = advice.Single(one => Same(one!["technique"], about.GetProperty("technique")))!.AsObject();
        string[] asked = [.. new[] { "crownZone", "branch", "mode" }.Where(name => about.TryGetProperty(name, out _))];
        return asked.Length == 0 ? [item] : item["parts"]!.AsArray().Select(part => part!.AsObject())
            .Where(part => asked.All(name => Same(part[name], about.GetProperty(name))));
    }

    private static IEnumerable<string> FaultsOf(JsonObject answer, JsonElement expected)
    {
        foreach (var name in new[] { "verdict", "hold", "opens", "closes", "barredUntil", "minutes", "sessions", "people" })
        {
            if (expected.TryGetProperty(name, out var wanted) && !Same(answer[name], wanted) && !SameButForDaysOfHeat(answer[name], wanted))
                yield return $"{name} {Reading.Canonical(answer[name])} ({Reading.Canonical(answer["reasons"])}), expected {wanted}";
        }
        foreach (var reason in expected.GetProperty("reasons").EnumerateArray().Where(reason => !answer["reasons"]!.AsArray().Any(one => Same(one, reason))))
            yield return $"reason {reason} is missing among {Reading.Canonical(answer["reasons"])}";
        if (expected.TryGetProperty("amount", out var amount))
        {
            foreach (var entry in amount.EnumerateArray().Where(entry => !answer["amount"]!.AsArray().Any(one => Holds(one!, entry))))
                yield return $"amount {entry} is missing among {Reading.Canonical(answer["amount"])}";
        }
        if (expected.TryGetProperty("fallback", out var fallback) && (answer["fallback"] is not { } said || !Holds(said, fallback)))
            yield return $"fallback {Reading.Canonical(answer["fallback"])}, expected {fallback}";
        foreach (var follow in expected.GetProperty("followUps").EnumerateArray().Where(follow => !answer["followUps"]!.AsArray().Any(one => Promises(one!, follow))))
            yield return $"follow-up {follow} is not promised among {Reading.Canonical(answer["followUps"])}";
    }

    private static bool Promises(JsonNode said, JsonElement expected) =>
        Same(said["when"], expected.GetProperty("when")) && (!expected.TryGetProperty("technique", out var technique) || Same(said["technique"], technique));

    private static bool Holds(JsonNode said, JsonElement expected) => expected.EnumerateObject().All(field => Same(said[field.Name], field.Value));

    private static bool Same(JsonNode? said, JsonElement expected) => Reading.Canonical(said) == Reading.Canonical(expected);

    private static bool SameButForDaysOfHeat(JsonNode? said, JsonElement expected) =>
        Reading.Canonical(WithoutDaysOfHeat(said?.DeepClone())) == Reading.Canonical(WithoutDaysOfHeat(JsonNode.Parse(expected.GetRawText())));

    // Days that only restate a heat sum follow the forecast.
    private static JsonNode? WithoutDaysOfHeat(JsonNode? trigger)
    {
        if (trigger is JsonObject fields)
        {
            if (fields.ContainsKey("heatCd"))
                fields.Remove("days");
            foreach (var one in fields["any"]?.AsArray() ?? [])
                WithoutDaysOfHeat(one);
        }
        return trigger;
    }

    private static string Named(JsonElement about) => string.Join(" ", new[] { "technique", "crownZone", "branch", "mode" }
        .Where(name => about.TryGetProperty(name, out _)).Select(name => about.GetProperty(name).GetString()));
}
