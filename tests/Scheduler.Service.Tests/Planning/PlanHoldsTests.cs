using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Planning;

/// <summary>Hard weather in the forecast: heavy work and wounds keep clear of it in the plan. Garden, trees and weather are invented.</summary>
public class PlanHoldsTests
{
    private static readonly (string, int)[] EveryDay =
        [("monday", 300), ("tuesday", 300), ("wednesday", 300), ("thursday", 300), ("friday", 300), ("saturday", 300), ("sunday", 300)];

    [Theory]
    [InlineData("repotting", "2026-03-14", -6, 8, 0, "frost")]
    [InlineData("repotting", "2026-03-14", 18, 38, 0, "heat")]
    public async Task HeavyWork_KeepsClearOfHardWeather(string technique, string day, double minC, double maxC, double rainMm, string why)
    {
        var today = LocalDatePattern.Iso.Parse(day).Value;
        await using var owner = await PlanBench.StartAsync(today);
        owner.GoTo(today, Mild);
        var garden = await owner.GardenAsync(EveryDay);
        await owner.ChangeAsync(garden, new JsonObject { ["frostFreeShelter"] = true, ["temperatureOffsetC"] = 0 });
        await TreeAsync(owner, garden);
        var calm = (await owner.PlanAsync(garden)).Items.Where(item => item.Technique == technique).ToList();
        Assert.True(calm.Count > 0 && calm[0].Date <= today.PlusDays(13), $"nothing planned near: {string.Join(", ", calm)}");
        var struck = LocalDate.Max(calm[0].Date, today.PlusDays(1));

        var (from, to) = (struck, struck.PlusDays(1));
        owner.GoTo(today, forecast => forecast.Date >= from && forecast.Date <= to
            ? new DayWeather(forecast.Date, minC, maxC, rainMm, null, null, forecast.Kind) : Mild(forecast));
        await owner.ChangeAsync(garden, new JsonObject { ["name"] = "Same yard" });

        var hard = await owner.PlanAsync(garden);
        // Neither on those days nor on their eve. A frost falls at dawn, so the day of the last one is free again.
        var last = why == "frost" ? from : to;
        Assert.DoesNotContain(hard.Items, item => item.Technique == technique && item.Date >= from.PlusDays(-1) && item.Date <= last);
        Assert.True(
            hard.Items.Any(item => item.Technique == technique)
            || hard.Unplaced.Any(one => PlanBench.Text(one!, "technique") == technique && PlanBench.Text(one!, "reason").Contains(why, StringComparison.OrdinalIgnoreCase)),
            "the work is lost without a word");
    }

    [Theory]
    [InlineData(-6, 6, 0, 10, true, "frost-soon")]
    [InlineData(20, 38, 0, 10, true, "extreme-heat,heat-on-leaf-work")]
    [InlineData(8, 16, 0, 10, false, "dry-root-ball")]
    public async Task OpenWork_IsHeldAndSaysUntilWhen(double minC, double maxC, double rainMm, double gustKmh, bool hasWater, string holds)
    {
        LocalDate today = new(2026, 4, 24);
        await using var owner = await PlanBench.StartAsync(today);
        owner.GoTo(today, Mild);
        var garden = await owner.GardenAsync(EveryDay);
        var tree = await owner.MapleAsync(garden, "Old maple");
        await owner.Client.MakeAsync($"/api/v1/trees/{tree}/observations", new JsonObject { ["date"] = "2026-04-24", ["bbch"] = 10, ["soft"] = true });
        owner.GoTo(today, forecast => forecast.Date <= today.PlusDays(1) ? new DayWeather(forecast.Date, minC, maxC, rainMm, gustKmh, null, forecast.Kind) : Mild(forecast));
        await owner.ChangeAsync(garden, new JsonObject { ["waterAssured"] = hasWater });

        var window = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/windows?limit=200"))!["items"]!.AsArray()
            .First(one => PlanBench.Text(one!, "technique") == "tip-pinch")!;
        Assert.Equal("held", PlanBench.Text(window, "state"));
        Assert.Contains(PlanBench.Text(window, "hold"), holds.Split(','));
        var until = PlanBench.Date(PlanBench.Text(window, "heldUntil"));
        Assert.True(until > today);
        var plan = await owner.PlanAsync(garden);
        Assert.DoesNotContain(plan.Items, item => item.Technique == "tip-pinch" && item.Date < until);
    }

    private static DayWeather Mild(DayWeather day) => new(day.Date, 8, 17, 0, null, null, day.Kind);

    private static Task<string> TreeAsync(PlanBench owner, string garden) =>
        owner.Client.MakeAsync($"/api/v1/gardens/{garden}/trees", Tree("acer-palmatum", "refinement", "slender", "2019-03-20"));

    private static JsonObject Tree(string species, string stage, string goal, string repotted)
    {
        return new JsonObject
        {
            ["name"] = "Struck tree", ["species"] = species, ["stage"] = stage, ["goals"] = new JsonArray(goal), ["size"] = "m", ["health"] = "vigorous",
            ["placement"] = "open", ["repottedOn"] = repotted
        };
    }
}
