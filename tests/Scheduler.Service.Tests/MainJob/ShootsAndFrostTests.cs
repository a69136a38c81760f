using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>Counted leaves, seen leaf color and past frosts reach the owner's answers. Gardens, trees and readings are invented.</summary>
public class ShootsAndFrostTests
{
    private static readonly LocalDate Start = new(2010, 1, 1);

    [Fact]
    public async Task Season_TellsTheFrostsOfTheSite()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-03-10");
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2026, 3, 9)));
        await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");

        var frost = (await SeasonAsync(owner, garden))["frost"]!;

        Assert.Equal(16, frost["years"]!.GetValue<int>());
        var (spring, autumn) = (frost["lastSpring"]!, frost["firstAutumn"]!);
        Assert.InRange(Date(spring["average"]!), new LocalDate(2026, 3, 15), new LocalDate(2026, 5, 15));
        Assert.True(Date(spring["cautious"]!) > Date(spring["average"]!));
        Assert.InRange(Date(autumn["average"]!), new LocalDate(2026, 10, 1), new LocalDate(2026, 12, 15));
        Assert.True(Date(autumn["cautious"]!) < Date(autumn["average"]!));
    }

    [Fact]
    public async Task Season_WithoutWeather_KnowsNoFrost()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-03-10");
        var garden = await owner.GardenAsync();
        var frost = (await SeasonAsync(owner, garden))["frost"]!;

        Assert.Equal(0, frost["years"]!.GetValue<int>());
        Assert.Null(frost["lastSpring"]!["average"]);
    }

    [Fact]
    public async Task CountedLeaves_ActAsTheCodeOfTheirPairs()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-05-20");
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2026, 5, 19)));
        var maple = await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");

        await owner.Client.MakeAsync($"/api/v1/trees/{maple}/observations", new JsonObject { ["date"] = "2026-05-02", ["leafCount"] = 2 });

        var firstLeaf = Phase(await SeasonAsync(owner, garden), "first-leaf");
        Assert.Equal("2026-05-02", firstLeaf["reachedOn"]!.GetValue<string>());
        Assert.True(firstLeaf["seen"]!.GetValue<bool>());
    }

    [Fact]
    public async Task LeafFallSeenEarlyInPastYears_BringsTheNextOneForward()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-07-01");
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2026, 6, 30)));
        var maple = await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");
        var before = Phase(await SeasonAsync(owner, garden), "leaf-fall");

        foreach (var year in Enumerable.Range(2020, 6))
            await owner.SawAsync(maple, $"{year}-10-01", 93);

        var after = Phase(await SeasonAsync(owner, garden), "leaf-fall");
        Assert.True(Date(after["likely"]!) < Date(before["likely"]!).PlusDays(-7));
        Assert.InRange(Period.DaysBetween(Date(after["early"]!), Date(after["late"]!)), 14, 24);
        Assert.InRange(Period.DaysBetween(Date(before["early"]!), Date(before["late"]!)), 18, 32);
    }

    [Fact]
    public async Task Evergreen_HasNoLeafFall()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-03-10");
        var garden = await owner.GardenAsync(41);
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2026, 3, 9), meanC: 14, swingC: 8));
        await owner.TreeAsync(garden, "Old olive", "olea-europaea", "refinement", "slender");

        Assert.DoesNotContain((await SeasonAsync(owner, garden))["items"]![0]!["phases"]!.AsArray(), phase => phase!["phase"]!.GetValue<string>() == "leaf-fall");
    }

    private static async Task<JsonNode> SeasonAsync(OwnerAtWork owner, string garden) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/season"))!;

    private static JsonNode Phase(JsonNode season, string id) =>
        season["items"]![0]!["phases"]!.AsArray().Single(phase => phase!["phase"]!.GetValue<string>() == id)!;

    private static LocalDate Date(JsonNode node) => LocalDatePattern.Iso.Parse(node.GetValue<string>()).Value;
}
