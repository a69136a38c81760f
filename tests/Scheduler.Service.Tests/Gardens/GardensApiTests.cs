using System.Text.Json.Nodes;
using Scheduler.Service.Tests.Support;

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
    }
}
