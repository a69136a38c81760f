using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Planning;

/// <summary>
/// A full defoliation and cuts on wood, over HTTP, in weather that a grower would wait for: wind and days of rain for bared shoots, dry days
/// for wounds (cankers and silver leaf enter wet ones), no heavy work on the eve of heat. Common practice; garden, trees and weather are invented.
/// </summary>
public class FitDaysTests
{
    private const string Strip = "full-defoliation";
    private const string Prune = "structural-pruning";
    private static readonly LocalDate Summer = new(2026, 6, 15);
    private static readonly LocalDate AfterBloom = new(2026, 5, 11);
    private static readonly (string, int)[] EveryDay =
        [("monday", 300), ("tuesday", 300), ("wednesday", 300), ("thursday", 300), ("friday", 300), ("saturday", 300), ("sunday", 300)];

    [Fact]
    public async Task FullDefoliation_WaitsForItsWeather_AndSaysUntilWhen()
    {
        await using var owner = await PlanBench.StartAsync(Summer);
        owner.GoTo(Summer, Fair);
        var garden = await owner.GardenAsync(EveryDay);
        var tree = await TreeAsync(owner, garden, "acer-buergerianum", "ramification", "m", new JsonArray(new JsonObject { ["technique"] = Strip }));
        await SeenAsync(owner, tree, new LocalDate(2026, 4, 10), new JsonObject { ["bbch"] = 10 });
        await SeenAsync(owner, tree, Summer, new JsonObject { ["hardened"] = true, ["tipsMoving"] = false });
        await owner.Client.MakeAsync($"/api/v1/trees/{tree}/work", new JsonObject { ["technique"] = "feeding", ["date"] = "2026-04-20" });
        await StandsAsync("open", null, null);

        // Gusts shake bared shoots for five days.
        await BlowAsync(day => day == Summer.PlusDays(1), day => With(day, gustKmh: 62));
        await StandsAsync("held", "wind", Summer.PlusDays(2));

        // More than three days in a row with 10 mm: the root ball stays wet. Three are not yet that.
        await BlowAsync(day => day <= Summer.PlusDays(4), day => With(day, rainMm: 12));
        await StandsAsync("held", "soaking-rain", Summer.PlusDays(5));
        await BlowAsync(day => day <= Summer.PlusDays(2), day => With(day, rainMm: 12));
        await StandsAsync("open", null, null);

        // Heat to come scorches what was shaded.
        await BlowAsync(day => day == Summer.PlusDays(2), day => With(day, maxC: 33.5));
        await StandsAsync("held", "heat-on-leaf-work", Summer.PlusDays(3));

        // Open today, but its owner is free on two days only, of which gusts two days after the first bar that one.
        var (first, second) = (Summer.PlusDays(6), Summer.PlusDays(12));
        await owner.ChangeAsync(garden, new JsonObject { ["workDays"] = new JsonArray(), ["exceptions"] = new JsonArray(OnlyOn(first), OnlyOn(second)) });
        await BlowAsync(day => day == first.PlusDays(2), day => With(day, gustKmh: 62));
        Assert.Equal(second, await StandsAsync("open", null, null));
        await BlowAsync(day => day == second, day => With(day, gustKmh: 62));
        Assert.Equal(first, await StandsAsync("open", null, null));

        async Task BlowAsync(Func<LocalDate, bool> isHard, Func<DayWeather, DayWeather> hard)
        {
            owner.GoTo(Summer, day => isHard(day.Date) ? hard(Fair(day)) : Fair(day));
            await owner.ChangeAsync(garden, new JsonObject { ["name"] = "Same yard" });
        }

        async Task<LocalDate> StandsAsync(string state, string? hold, LocalDate? until)
        {
            var window = await WindowAsync(owner, garden, Strip);
            Assert.Equal((state, hold, until), (PlanBench.Text(window, "state"), window["hold"]?.GetValue<string>(), window["heldUntil"] is { } day ? PlanBench.Date(day.GetValue<string>()) : null));
            var placed = Assert.Single((await owner.PlanAsync(garden)).Items, item => item.Technique == Strip).Date;
            Assert.True(placed >= (until ?? Summer) && placed <= Summer.PlusDays(13), $"{state} {hold}: {placed}");
            return placed;
        }
    }

    [Fact]
    public async Task Cuts_WaitForDryDays_OnStoneFruitAndCankerProneTreesThreeDaysAhead()
    {
        await using var owner = await PlanBench.StartAsync(AfterBloom);
        owner.GoTo(AfterBloom, Fair);
        var garden = await owner.GardenAsync(EveryDay);
        var cherry = await TreeAsync(owner, garden, "prunus-cherry", "branch-building", "m");
        var apple = await TreeAsync(owner, garden, "malus", "branch-building", "s");
        foreach (var tree in new[] { cherry, apple })
            await SeenAsync(owner, tree, AfterBloom.PlusDays(-1), new JsonObject { ["bbch"] = 69 });
        await RainAsync();
        Assert.All(new[] { await CutOnAsync(cherry), await CutOnAsync(apple) }, day => Assert.InRange(day!.Value, AfterBloom, AfterBloom.PlusDays(15)));

        // Free on three days. Rain falls two days after the first: stone fruit waits, the apple only keeps off wet days themselves.
        LocalDate first = AfterBloom.PlusDays(4), wet = first.PlusDays(2), dry = first.PlusDays(7);
        await owner.ChangeAsync(garden, new JsonObject { ["workDays"] = new JsonArray(), ["exceptions"] = new JsonArray(OnlyOn(first), OnlyOn(wet)) });
        await RainAsync(wet);
        Assert.Equal((null, first), (await CutOnAsync(cherry), await CutOnAsync(apple)));
        var unplaced = (await owner.PlanAsync(garden)).Unplaced.Single(one => PlanBench.Text(one!, "treeId") == cherry && PlanBench.Text(one!, "technique") == Prune)!;
        Assert.Equal("held-by-weather", PlanBench.Text(unplaced, "cause"));
        Assert.Contains("Rain is forecast within three days", PlanBench.Text(unplaced, "reason"), StringComparison.Ordinal);
        await owner.ChangeAsync(garden, new JsonObject { ["exceptions"] = new JsonArray(OnlyOn(first), OnlyOn(wet), OnlyOn(dry)) });
        Assert.Equal((dry, first), (await CutOnAsync(cherry), await CutOnAsync(apple)));
        await RainAsync(first);
        Assert.NotEqual(first, await CutOnAsync(apple));

        // The owner knows of canker: the apple waits like stone fruit.
        using var marked = await owner.Client.PatchAsync($"/api/v1/trees/{apple}", Bodies.Raw("""{"settings":{"canker-prone":true}}"""));
        Assert.True(marked.IsSuccessStatusCode, await marked.Content.ReadAsStringAsync());
        await RainAsync(wet);
        Assert.Equal((dry, dry), (await CutOnAsync(cherry), await CutOnAsync(apple)));

        // Rain tomorrow holds both today, and they say until when.
        await RainAsync(AfterBloom.PlusDays(1));
        foreach (var tree in new[] { cherry, apple })
        {
            var window = await WindowAsync(owner, garden, Prune, tree);
            Assert.Equal(("held", "rain-on-cuts", AfterBloom.PlusDays(2)), (PlanBench.Text(window, "state"), PlanBench.Text(window, "hold"), PlanBench.Date(PlanBench.Text(window, "heldUntil"))));
        }

        async Task RainAsync(params LocalDate[] days)
        {
            owner.GoTo(AfterBloom, day => With(Fair(day), rainMm: days.Contains(day.Date) ? 4 : 0));
            await owner.ChangeAsync(garden, new JsonObject { ["name"] = "Same yard" });
        }

        async Task<LocalDate?> CutOnAsync(string tree)
        {
            var id = PlanBench.Text(await WindowAsync(owner, garden, Prune, tree), "id");
            return (await owner.PlanAsync(garden)).Items.SingleOrDefault(item => item.WindowId == id)?.Date;
        }
    }

    private static JsonObject OnlyOn(LocalDate day) => PlanBench.Exception(day, 300);

    private static DayWeather Fair(DayWeather day) => new(day.Date, 12, 23, 0, null, null, day.Kind);

    private static DayWeather With(DayWeather day, double? rainMm = null, double? gustKmh = null, double? maxC = null) =>
        new(day.Date, day.MinC, maxC ?? day.MaxC, rainMm ?? day.PrecipMm, gustKmh ?? day.GustKmh, null, day.Kind);

    private static async Task<JsonNode> WindowAsync(PlanBench owner, string garden, string technique, string? tree = null) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/windows?limit=200"))!["items"]!.AsArray()
            .First(one => PlanBench.Text(one!, "technique") == technique && (tree is null || PlanBench.Text(one!, "treeId") == tree) && PlanBench.Text(one!["opens"]!, "likely").StartsWith("2026", StringComparison.Ordinal))!;

    private static Task<string> TreeAsync(PlanBench owner, string garden, string species, string stage, string size, JsonArray? requests = null) =>
        owner.Client.MakeAsync($"/api/v1/gardens/{garden}/trees", new JsonObject
        {
            ["name"] = $"Invented {species}", ["species"] = species, ["stage"] = stage, ["goals"] = new JsonArray("slender"), ["size"] = size, ["health"] = "vigorous",
            ["placement"] = "open", ["rootWorkKnown"] = true, ["requests"] = requests
        });

    private static Task<string> SeenAsync(PlanBench owner, string tree, LocalDate date, JsonObject seen)
    {
        seen["date"] = LocalDatePattern.Iso.Format(date);
        return owner.Client.MakeAsync($"/api/v1/trees/{tree}/observations", seen);
    }
}
