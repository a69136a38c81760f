using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Scheduler.Service.Tests.Support;

/// <summary>Sound request bodies with invented data, and short ways to send them.</summary>
public static class Bodies
{
    public static JsonObject Garden() => new()
    {
        ["name"] = "Invented Garden",
        ["latitude"] = 52.25,
        ["longitude"] = 21.0,
        ["elevationM"] = 110,
        ["timeZone"] = "Europe/Warsaw",
        ["hardinessZone"] = "6b",
        ["temperatureOffsetC"] = -1.5,
        ["workDays"] = new JsonArray(new JsonObject { ["day"] = "saturday", ["minutes"] = 120 }),
        ["exceptions"] = new JsonArray(
            new JsonObject { ["from"] = "2026-05-02", ["to"] = "2026-05-17", ["minutes"] = 0 },
            new JsonObject { ["from"] = "2026-05-21", ["to"] = null, ["minutes"] = 90 }),
        ["firstFrostChoice"] = "cautious",
        ["waterAssured"] = true,
        ["frostFreeShelter"] = false
    };

    public static JsonObject Tree() => new()
    {
        ["name"] = "Old Friend",
        ["species"] = "acer-palmatum",
        ["cultivar"] = "invented cultivar",
        ["stage"] = "refinement",
        ["goals"] = new JsonArray("slender", "light"),
        ["placement"] = "open",
        ["size"] = "m",
        ["health"] = "vigorous",
        ["repottedOn"] = "2025-03-20",
        ["notes"] = "first line\nsecond line",
        ["group"] = "MPJ",
        ["settings"] = new JsonObject { ["3"] = true, ["outline"] = "trimmed" },
        ["requests"] = new JsonArray(new JsonObject { ["technique"] = "tip-pinch", ["aim"] = "finer twigs" }),
        ["rootWorkKnown"] = true,
        ["doNotTouchUntil"] = "2026-05-01",
        ["origin"] = new JsonObject { ["kind"] = "imported", ["date"] = "2024-02-01" },
        ["branches"] = new JsonArray(new JsonObject
        {
            ["id"] = "B4", ["crownZone"] = "lower", ["stage"] = "branch-building", ["goals"] = new JsonArray("thicken-branch"), ["density"] = 1,
            ["girth"] = "too-thin", ["role"] = "low-branch", ["wired"] = true, ["thicknessMm"] = 6.5, ["fault"] = "crossing"
        })
    };

    public static JsonObject Work() => new()
    {
        ["technique"] = "outline-trim",
        ["date"] = "2026-04-10",
        ["extent"] = "light",
        ["mode"] = "routine-trim",
        ["crownZone"] = "top",
        ["branch"] = "B4",
        ["minutes"] = 25,
        ["rootPercent"] = 0,
        ["livingTopPercent"] = 12.5,
        ["result"] = "normal",
        ["notes"] = "easy"
    };

    public static JsonObject Bench() => new()
    {
        ["date"] = "2026-04-14",
        ["soilDry"] = false,
        ["woodFrozen"] = false,
        ["rootBallC"] = 9.5,
        ["roomMinC"] = 3,
        ["roomMaxC"] = 12,
        ["notes"] = "mild"
    };

    public static JsonObject Observation() => new()
    {
        ["date"] = "2026-04-12", ["phase"] = "first-leaf", ["bbch"] = 11, ["crownZone"] = "middle", ["branch"] = "B6", ["flush"] = 1,
        ["leafCount"] = 4, ["density"] = 2, ["hardened"] = false, ["wireTight"] = false, ["soil"] = "moist", ["strength"] = "medium",
        ["organ"] = "side-shoots", ["candle"] = "C2", ["soft"] = true, ["baseFirm"] = true, ["firm"] = false, ["shootCm"] = 2.5,
        ["internodeCm"] = 1, ["pastOutlineCm"] = 0.5, ["leavesFullSize"] = false, ["tipsMoving"] = true, ["growing"] = true,
        ["springGrowthFirm"] = false, ["shareOfShootsPercent"] = 60, ["someAtBbch"] = 13, ["flowerBuds"] = "certain", ["flowerBudsSeen"] = true,
        ["flowersPastPercent"] = 10, ["fruitSet"] = false, ["bareAlongLength"] = "partly", ["liveUnderScratch"] = true, ["capsOff"] = true,
        ["candlesPerPoint"] = 3, ["shootsPerPoint"] = 2, ["deadTwigs"] = false, ["wireBiting"] = false, ["pestSigns"] = false, ["frostedLeaves"] = false, ["waterStands"] = true,
        ["rootsLift"] = false, ["notes"] = "seen at noon"
    };

    public static StringContent Raw(string json) => new(json, Encoding.UTF8, "application/json");

    /// <summary>Sends a body and expects 201; gives the id of what was made.</summary>
    public static async Task<string> MakeAsync(this HttpClient client, string path, JsonNode body)
    {
        using var answer = await client.PostAsync(path, Raw(body.ToJsonString()));
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode is HttpStatusCode.Created, $"{answer.StatusCode}: {text}");
        return JsonNode.Parse(text)!["id"]!.GetValue<string>();
    }

    public static async Task<JsonElement> JsonAsync(this HttpClient client, string path) => await client.GetFromJsonAsync<JsonElement>(path);
}
