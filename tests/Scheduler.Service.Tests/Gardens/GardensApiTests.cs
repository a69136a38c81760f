using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Gardens;

public sealed class GardensApiTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Garden_AllFields_ComesBackAsSent()
    {
        using var owner = await _service.SignUpAsync();
        var id = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var got = JsonNode.Parse(await owner.GetStringAsync($"/api/v1/gardens/{id}"))!.AsObject();
        foreach (var (field, sent) in Bodies.Garden())
            Assert.True(JsonNode.DeepEquals(sent, got[field]), $"{field}: sent {sent}, got {got[field]}");
        Assert.Equal("north", got["hemisphere"]!.GetValue<string>());
        Assert.Equal("owner", got["hardinessZoneFrom"]!.GetValue<string>());
        Assert.Equal("none", got["weather"]!["state"]!.GetValue<string>());
        Assert.Equal([Guid.Parse(id)], _service.Weather.Attached);
        Assert.Equal([Guid.Parse(id)], _service.Planner.Replanned);
    }

    [Fact]
    public async Task Garden_OnlyTheRequired_HasEmptyRest()
    {
        using var owner = await _service.SignUpAsync();
        var id = await owner.MakeAsync("/api/v1/gardens", new JsonObject { ["name"] = "bare", ["latitude"] = -43, ["longitude"] = 172 });
        var got = await owner.JsonAsync($"/api/v1/gardens/{id}");
        Assert.Equal("south", got.GetProperty("hemisphere").GetString());
        foreach (var field in new[] { "elevationM", "timeZone", "hardinessZone", "hardinessZoneFrom", "temperatureOffsetC", "waterAssured", "frostFreeShelter" })
            Assert.Equal(JsonValueKind.Null, got.GetProperty(field).ValueKind);
        Assert.Equal("average", got.GetProperty("firstFrostChoice").GetString());
    }

    [Fact]
    public async Task Change_FieldsLeftOut_KeepTheirValuesAndNullClears()
    {
        using var owner = await _service.SignUpAsync();
        var id = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        using var answer = await owner.PatchAsync($"/api/v1/gardens/{id}", Bodies.Raw("{\"temperatureOffsetC\":2,\"hardinessZone\":null,\"workDays\":null}"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var got = JsonNode.Parse(await owner.GetStringAsync($"/api/v1/gardens/{id}"))!.AsObject();
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(await answer.Content.ReadAsStringAsync()), got));
        var expected = Bodies.Garden();
        (expected["temperatureOffsetC"], expected["hardinessZone"], expected["workDays"]) = (2, null, new JsonArray());
        foreach (var (field, sent) in expected)
            Assert.True(JsonNode.DeepEquals(sent, got[field]), field);
        Assert.Equal(2, _service.Planner.Replanned.Count);
        Assert.Single(_service.Weather.Attached);
    }

    [Fact]
    public async Task Change_OfPlace_FindsTheWeatherAnew()
    {
        using var owner = await _service.SignUpAsync();
        var id = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        await owner.PatchAsync($"/api/v1/gardens/{id}", Bodies.Raw("{\"latitude\":10}"));
        Assert.Equal(2, _service.Weather.Attached.Count);
        Assert.Equal("Europe/Warsaw", (await owner.JsonAsync($"/api/v1/gardens/{id}")).GetProperty("timeZone").GetString());
    }

    [Fact]
    public async Task Delete_Garden_TakesItsTreesAlong()
    {
        using var owner = await _service.SignUpAsync();
        var id = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var tree = await owner.MakeAsync($"/api/v1/gardens/{id}/trees", Bodies.Tree());
        Assert.Equal(HttpStatusCode.NoContent, (await owner.DeleteAsync($"/api/v1/gardens/{id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/api/v1/gardens/{id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/api/v1/trees/{tree}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.DeleteAsync($"/api/v1/gardens/{id}")).StatusCode);
    }

    [Theory]
    // Mean of the lowest winter temperatures [C] and its half-zone by the bounds of the USDA map: 6b begins at -5 F = -20.56 C, 7a at 0 F = -17.78 C.
    [InlineData(-20.5, 31, "6b")]
    [InlineData(-17.7, 31, "7a")]
    [InlineData(-17.7, 25, "7a")]
    [InlineData(-17.7, 24, null)]
    public async Task HardinessZone_LeftOut_FollowsFromTheLastThirtyWinters(double lowestC, int years, string? zone)
    {
        var start = new LocalDate(2026 - years, 1, 1);
        var days = Enumerable.Range(0, Period.DaysBetween(start, new LocalDate(2026, 4, 15)))
            .Select(start.PlusDays)
            .Select(date => new DayWeather(date, date is { Month: 1, Day: 20 } ? lowestC : 1, 8, null, null, null, DayKind.Observed));
        _service.Weather.Days = new GardenDays([.. days], new WeatherStatus("ready", null, years, 30, [], null));
        using var owner = await _service.SignUpAsync();
        var garden = Bodies.Garden();
        garden.Remove("hardinessZone");
        var got = await owner.JsonAsync($"/api/v1/gardens/{await owner.MakeAsync("/api/v1/gardens", garden)}");
        Assert.Equal((zone, zone is null ? null : "weather"), (got.GetProperty("hardinessZone").GetString(), got.GetProperty("hardinessZoneFrom").GetString()));
    }

    [Fact]
    public async Task Today_IsTheGardensOwn()
    {
        // At noon UTC on the 15th it is the 16th on Kiritimati (UTC+14).
        using var owner = await _service.SignUpAsync();
        var east = Bodies.Garden();
        east["timeZone"] = "Pacific/Kiritimati";
        var id = await owner.MakeAsync("/api/v1/gardens", east);
        await owner.MakeAsync($"/api/v1/gardens/{id}/observations", new JsonObject { ["date"] = "2026-04-16", ["soilDry"] = true });
        using var later = await owner.PostAsync($"/api/v1/gardens/{id}/observations", Bodies.Raw("{\"date\":\"2026-04-17\",\"soilDry\":true}"));
        Assert.Equal(HttpStatusCode.BadRequest, later.StatusCode);
    }
}
