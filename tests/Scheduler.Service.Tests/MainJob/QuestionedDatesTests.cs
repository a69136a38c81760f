using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using NodaTime;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>The owner reports dates of past springs; those that can hardly be are kept and asked back about. All invented.</summary>
public class QuestionedDatesTests(ITestOutputHelper output)
{
    private const string Today = "2026-03-10";
    private static readonly LocalDate Yesterday = new(2026, 3, 9);

    [Fact]
    public async Task PlausibleDate_IsTakenWithoutAQuestionAndAnImpossibleOneIsAskedBack()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, maple) = await MapleAsync(owner, new LocalDate(2010, 1, 1));

        Assert.Null((await SawAsync(owner, maple, "2024-04-18"))["question"]);
        var odd = await SawAsync(owner, maple, "2025-01-20");
        var question = odd["question"]!.GetValue<string>();
        Assert.Contains("April 2025", question, StringComparison.Ordinal);
        Assert.Contains("days later", question, StringComparison.Ordinal);
        Assert.Contains("first look", (await SawAsync(owner, maple, "2023-07-20"))["question"]!.GetValue<string>(), StringComparison.Ordinal);

        // Kept all the same, and the forecast stays where it was within days.
        var kept = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/trees/{maple}/observations/{odd["id"]}"))!;
        Assert.Equal("2025-01-20", kept["date"]!.GetValue<string>());
        Assert.InRange(await BudBreakAsync(owner, garden), new LocalDate(2026, 4, 5), new LocalDate(2026, 4, 30));
    }

    [Fact]
    public async Task PostedObservation_IsAnsweredQuickly()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (_, maple) = await MapleAsync(owner, new LocalDate(1991, 3, 10));
        for (var spring = 0; spring < 45; spring++)
            await owner.SawAsync(maple, $"{1992 + spring % 34}-04-{10 + spring % 15}", spring < 34 ? 7 : 11);
        var best = double.MaxValue;
        for (var round = 0; round < 10; round++)
        {
            var start = Stopwatch.GetTimestamp();
            await SawAsync(owner, maple, "2025-04-19");
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
        output.WriteLine($"35 years of readings, 45 dates: one more is answered in {best:F0} ms");

        // Under 50 ms when built for release on a quiet machine; this bound only catches a change of kind.
        Assert.True(best < 1000, $"{best} ms");
    }

    private static async Task<(string Garden, string Maple)> MapleAsync(OwnerAtWork owner, LocalDate from)
    {
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(from, Yesterday));
        return (garden, await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender"));
    }

    private static async Task<JsonNode> SawAsync(OwnerAtWork owner, string tree, string date)
    {
        using var answer = await owner.Client.PostAsJsonAsync($"/api/v1/trees/{tree}/observations", new { date, bbch = 7 });
        answer.EnsureSuccessStatusCode();
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
    }

    private static async Task<LocalDate> BudBreakAsync(OwnerAtWork owner, string garden)
    {
        var season = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/season"))!["items"]![0]!;
        var likely = season["phases"]!.AsArray().Single(phase => phase!["bbch"]!.GetValue<int>() == 7)!["likely"]!.GetValue<string>();
        return NodaTime.Text.LocalDatePattern.Iso.Parse(likely).Value;
    }
}
