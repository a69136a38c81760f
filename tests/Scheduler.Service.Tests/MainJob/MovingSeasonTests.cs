using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>The whole path: weather in, phases, windows with reasons, a feed that moves. Gardens, trees and readings are invented.</summary>
public class MovingSeasonTests
{
    private const string Today = "2026-03-10";
    private static readonly LocalDate Start = new(2010, 1, 1);
    private static readonly LocalDate Yesterday = new(2026, 3, 9);
    private const string Pinch = "tip-pinch";

    // Two warm months have moved it by a week or so.
    [Theory]
    [InlineData("2026-03-25", 3)]
    [InlineData("2026-04-01", 3)]
    public async Task ThreeDegreesWarmerFromFebruary_MovesThePinchEarlierAndTouchesNoOtherEvent(string today, int leastDays)
    {
        var yesterday = LocalDatePattern.Iso.Parse(today).Value.PlusDays(-1);
        await using var owner = await OwnerAtWork.StartAsync(today);
        var garden = await owner.GardenAsync();
        var elsewhere = await owner.GardenAsync(53);
        foreach (var place in new[] { garden, elsewhere })
        {
            await owner.ReadingsAsync(place, MadeReadings.Csv(Start, yesterday));
            await owner.TreeAsync(place, "Old maple", "acer-palmatum", "refinement", "slender");
        }
        var feed = await owner.FeedAsync();
        var before = await owner.CalendarAsync(feed);
        var pinchBefore = await WindowAsync(owner, garden, Pinch);
        var changedBefore = await ChangesAsync(owner, garden);

        await owner.ReadingsAsync(garden, MadeReadings.Csv(new LocalDate(2026, 2, 1), yesterday, warmerFrom: new LocalDate(2026, 2, 1), warmerC: 3));

        var after = await owner.CalendarAsync(feed);
        var pinchAfter = await WindowAsync(owner, garden, Pinch);
        Assert.Equal(pinchBefore["id"]!.GetValue<string>(), pinchAfter["id"]!.GetValue<string>());
        Assert.InRange(Period.DaysBetween(Opens(pinchAfter), Opens(pinchBefore)), leastDays, 25);
        Assert.True(pinchAfter["sequence"]!.GetValue<int>() > pinchBefore["sequence"]!.GetValue<int>());

        var (old, now) = (OwnerAtWork.Events(before), OwnerAtWork.Events(after));
        Assert.Equal(old.Keys.Order(), now.Keys.Order());
        // A window whose early or late day alone has changed says so in its text without a new sequence number.
        var changed = (await ChangesAsync(owner, garden)).Except(changedBefore).Select(window => window.Id).ToList();
        Assert.NotEmpty(changed);
        foreach (var (uid, text) in old.Where(pair => !changed.Exists(id => pair.Key.Contains(id, StringComparison.Ordinal))))
            Assert.Equal(text, now[uid]);
        foreach (var window in await owner.WindowsAsync(elsewhere))
        {
            var uid = old.Keys.Single(key => key.Contains(window!["id"]!.GetValue<string>(), StringComparison.Ordinal));
            Assert.Equal(old[uid], now[uid]);
        }
    }

    // By mid-March little warmth has counted yet: what is a day or two, six weeks ahead, is no news to a calendar.
    [Fact]
    public async Task DayOrTwoOfWarmth_SixWeeksAhead_MovesTheSeasonButNoEvent()
    {
        var yesterday = new LocalDate(2026, 3, 14);
        await using var owner = await OwnerAtWork.StartAsync("2026-03-15");
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, yesterday));
        await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");
        var pinchBefore = await WindowAsync(owner, garden, Pinch);
        var leafBefore = await FirstLeafAsync(owner, garden);

        await owner.ReadingsAsync(garden, MadeReadings.Csv(new LocalDate(2026, 2, 1), yesterday, warmerFrom: new LocalDate(2026, 2, 1), warmerC: 3));

        Assert.InRange(Period.DaysBetween(await FirstLeafAsync(owner, garden), leafBefore), 1, 3);
        Assert.Equal(pinchBefore["opens"]!.ToJsonString(), (await WindowAsync(owner, garden, Pinch))["opens"]!.ToJsonString());
    }

    private static async Task<LocalDate> FirstLeafAsync(OwnerAtWork owner, string garden)
    {
        var season = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/season?species=acer-palmatum"))!;
        var leaf = season["items"]![0]!["phases"]!.AsArray().First(phase => phase!["phase"]!.GetValue<string>() == "first-leaf")!;
        return LocalDatePattern.Iso.Parse(leaf["likely"]!.GetValue<string>()).Value;
    }

    [Fact]
    public async Task GardenRemoved_CancelsItsEventsAndLeavesTheOthers()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var garden = await owner.GardenAsync();
        var elsewhere = await owner.GardenAsync(53);
        foreach (var place in new[] { garden, elsewhere })
        {
            await owner.ReadingsAsync(place, MadeReadings.Csv(Start, Yesterday));
            await owner.TreeAsync(place, "Old maple", "acer-palmatum", "refinement", "slender");
        }
        var feed = await owner.FeedAsync();
        var before = OwnerAtWork.Events(await owner.CalendarAsync(feed));
        var gone = (await owner.WindowsAsync(garden)).Select(window => window!["id"]!.GetValue<string>()).ToList();

        using var answer = await owner.Client.DeleteAsync($"/api/v1/gardens/{garden}");
        Assert.Equal(System.Net.HttpStatusCode.NoContent, answer.StatusCode);

        var after = OwnerAtWork.Events(await owner.CalendarAsync(feed));
        Assert.Equal(before.Keys.Order(), after.Keys.Order());
        foreach (var (uid, text) in before)
        {
            if (gone.Exists(id => uid.Contains(id, StringComparison.Ordinal)))
                Assert.Contains("STATUS:CANCELLED", after[uid], StringComparison.Ordinal);
            else
                Assert.Equal(text, after[uid]);
        }
        Assert.Contains(after, pair => pair.Value.Replace("\r\n ", "", StringComparison.Ordinal).Contains("The garden was removed.", StringComparison.Ordinal));
    }

    [Fact]
    public async Task LoggedRepotting_CancelsThePinchInTheFeedWithItsReason()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, Yesterday));
        var maple = await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");
        var feed = await owner.FeedAsync();
        Assert.Equal("TENTATIVE", OwnerAtWork.Event(await owner.CalendarAsync(feed), "Pinch window opens: Old maple").Status);
        var before = await WindowAsync(owner, garden, Pinch);

        await owner.WorkAsync(maple, "repotting", "2026-03-09", "normal");

        var cancelled = OwnerAtWork.Event(await owner.CalendarAsync(feed), "Pinch window opens: Old maple");
        Assert.Equal("CANCELLED", cancelled.Status);
        Assert.True(cancelled.Sequence > before["sequence"]!.GetValue<int>());
        Assert.Contains("root", cancelled.Description, StringComparison.OrdinalIgnoreCase);
        var after = await WindowAsync(owner, garden, Pinch);
        Assert.Equal("withdrawn", after["state"]!.GetValue<string>());
        Assert.Contains("roots-rebuilding", after["reasons"]!.AsArray().Select(reason => reason!.GetValue<string>()));
        var advice = await AdviceAsync(owner, maple, Pinch);
        Assert.Equal("not-allowed", advice["verdict"]!.GetValue<string>());
    }

    [Fact]
    public async Task UndoneRepotting_BringsTheSameEventBack()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, Yesterday));
        var maple = await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");
        var before = await WindowAsync(owner, garden, Pinch);
        var work = await owner.WorkAsync(maple, "repotting", "2026-03-09", "normal");

        using var undone = await owner.Client.DeleteAsync($"/api/v1/trees/{maple}/work/{work}");
        undone.EnsureSuccessStatusCode();

        var after = await WindowAsync(owner, garden, Pinch);
        Assert.Equal(before["id"]!.GetValue<string>(), after["id"]!.GetValue<string>());
        Assert.Equal("forecast", after["state"]!.GetValue<string>());
        Assert.True(after["sequence"]!.GetValue<int>() >= 2);
    }

    [Fact]
    public async Task BranchBuildingTrident_IsNeverToldToPinch()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, Yesterday));
        var trident = await owner.TreeAsync(garden, "Young trident", "acer-buergerianum", "branch-building", "thicken-branch");

        Assert.DoesNotContain(await owner.WindowsAsync(garden), window => window!["technique"]!.GetValue<string>() == Pinch);
        Assert.Contains(await owner.WindowsAsync(garden), window => window!["technique"]!.GetValue<string>() == "cut-back");
        var advice = await AdviceAsync(owner, trident, Pinch);
        Assert.Equal("not-allowed", advice["verdict"]!.GetValue<string>());
        Assert.Contains("pinching-thins", advice["reasons"]!.AsArray().Select(reason => reason!.GetValue<string>()));
        Assert.DoesNotContain("Pinch", await owner.CalendarAsync(await owner.FeedAsync()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OliveAskedToBudBack_GetsItsStripClosedByBudBreak()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-02-10");
        var garden = await owner.GardenAsync(41);
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2026, 2, 9), meanC: 14, swingC: 8));
        await owner.TreeAsync(garden, "Bare olive", "olea-europaea", "ramification", "back-bud");

        var strip = await WindowAsync(owner, garden, "pre-push-defoliation");
        var season = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/season?species=olea-europaea"))!["items"]![0]!;
        var budBreak = season["phases"]!.AsArray().Single(phase => phase!["phase"]!.GetValue<string>() == "bud-break")!;

        Assert.StartsWith("Defoliate before push", strip["title"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.InRange(Period.DaysBetween(Closes(strip), Date(budBreak["likely"]!)), -1, 1);
        Assert.True(Opens(strip) < Closes(strip));
    }

    [Fact]
    public async Task SouthernGarden_GetsTheSameTreesHalfAYearLater()
    {
        await using var owner = await OwnerAtWork.StartAsync("2026-01-15");
        var north = await owner.GardenAsync(43);
        var south = await owner.GardenAsync(-43, "Pacific/Auckland");
        await owner.ReadingsAsync(north, MadeReadings.Csv(Start, new LocalDate(2026, 1, 14)));
        await owner.ReadingsAsync(south, MadeReadings.Csv(Start, new LocalDate(2026, 1, 14), swingC: -9));
        foreach (var garden in new[] { north, south })
            await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");

        var apart = Period.DaysBetween(Opens(await WindowAsync(owner, north, Pinch)), Opens(await WindowAsync(owner, south, Pinch)));

        Assert.InRange(apart, 165, 200);
    }

    private static async Task<JsonNode> WindowAsync(OwnerAtWork owner, string garden, string technique) =>
        (await owner.WindowsAsync(garden)).Where(window => window!["technique"]!.GetValue<string>() == technique).MinBy(window => Opens(window!))!;

    private static async Task<List<(string Id, string At)>> ChangesAsync(OwnerAtWork owner, string garden) =>
        [.. (await owner.WindowsAsync(garden)).Select(window => (window!["id"]!.GetValue<string>(), window["changedAt"]!.GetValue<string>()))];

    private static async Task<JsonNode> AdviceAsync(OwnerAtWork owner, string tree, string technique) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/trees/{tree}/advice"))!["items"]!.AsArray()
            .Single(item => item!["technique"]!.GetValue<string>() == technique)!;

    private static LocalDate Opens(JsonNode window) => Date(window["opens"]!["likely"]!);

    private static LocalDate Closes(JsonNode window) => Date(window["closes"]!["likely"]!);

    private static LocalDate Date(JsonNode date) => LocalDatePattern.Iso.Parse(date.GetValue<string>()).Value;

    private static string DatesOf(string text) =>
        string.Join('\n', text.Split("\r\n").Where(line => line.StartsWith("DTSTART", StringComparison.Ordinal) || line.StartsWith("DTEND", StringComparison.Ordinal)));
}
