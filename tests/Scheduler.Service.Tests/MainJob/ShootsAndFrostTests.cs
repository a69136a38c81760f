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

        await CountAsync(owner, maple, "2026-05-02", 2);

        var firstLeaf = Phase(await SeasonAsync(owner, garden), "first-leaf");
        Assert.Equal("2026-05-02", firstLeaf["reachedOn"]!.GetValue<string>());
        Assert.True(firstLeaf["seen"]!.GetValue<bool>());
    }

    // One pair more in 4 days or in 16: the cut back, which waits for more leaves, opens later on the slow tree.
    [Fact]
    public async Task CountsOnOneShoot_SetTheTreesOwnPace()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-05-08");
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2026, 5, 7)));
        var quick = await owner.TreeAsync(garden, "Quick trident", "acer-buergerianum", "branch-building", "thicken-branch");
        var slow = await owner.TreeAsync(garden, "Slow trident", "acer-buergerianum", "branch-building", "thicken-branch");

        await CountAsync(owner, quick, "2026-05-04", 2);
        await CountAsync(owner, slow, "2026-04-22", 2);
        await CountAsync(owner, quick, "2026-05-08", 4);
        await CountAsync(owner, slow, "2026-05-08", 4);

        var opens = (await owner.WindowsAsync(garden))
            .Where(window => window!["technique"]!.GetValue<string>() == "cut-back")
            .GroupBy(window => window!["treeId"]!.GetValue<string>(), window => Date(window!["opens"]!["likely"]!))
            .ToDictionary(tree => tree.Key, tree => tree.Min());
        Assert.InRange(opens[quick], new LocalDate(2026, 5, 9), new LocalDate(2026, 6, 30));
        Assert.True(opens[quick] < opens[slow], $"{opens[quick]} {opens[slow]}");
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

    private static Task<string> CountAsync(OwnerAtWork owner, string tree, string date, int leaves) => owner.Client.MakeAsync(
        $"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = date, ["leafCount"] = leaves, ["crownZone"] = "top" });

    private static async Task<JsonNode> SeasonAsync(OwnerAtWork owner, string garden) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/season"))!;

    private static JsonNode Phase(JsonNode season, string id) =>
        season["items"]![0]!["phases"]!.AsArray().Single(phase => phase!["phase"]!.GetValue<string>() == id)!;

    private static LocalDate Date(JsonNode node) => LocalDatePattern.Iso.Parse(node.GetValue<string>()).Value;
}
