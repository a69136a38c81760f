using System.Net;
using System.Text.Json;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Accounts;

public sealed class AccountSettingsApiTests : IDisposable
{
    private const string Address = "/api/v1/accounts/me/settings";
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Choices_Replaced_ComeBackAsSentAndReplanAllGardens()
    {
        using var owner = await _service.SignUpAsync();
        await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        _service.Planner.Replanned.Clear();
        const string sent = "{\"settings\":{\"1\":\"let-run\",\"3\":true,\"outline\":\"free\"}}";

        using var answer = await owner.PutAsync(Address, Bodies.Raw(sent));

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(sent, await owner.GetStringAsync(Address));
        Assert.Equal(2, _service.Planner.Replanned.Distinct().Count());
    }

    [Theory]
    [InlineData("{\"21\":true}", "settings.21", "outline")]
    [InlineData("{\"7\":\"two-days\"}", "settings.7", "one-day, medium-first, weak-first")]
    [InlineData("{\"7\":true}", "settings.7", "one-day")]
    [InlineData("{\"3\":\"maybe\"}", "settings.3", "true or false")]
    [InlineData("{\"2\":\"free\",\"outline\":\"trimmed\"}", "settings.outline", "one name")]
    [InlineData("[]", "settings", "object")]
    public async Task Choice_ThatIsNone_IsRefusedNamingTheValidOnes(string settings, string field, string remedy)
    {
        using var owner = await _service.SignUpAsync();
        using var answer = await owner.PutAsync(Address, Bodies.Raw($"{{\"settings\":{settings}}}"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement.GetProperty("errors");
        Assert.Contains(remedy, errors.GetProperty(field)[0].GetString(), StringComparison.Ordinal);
        Assert.Equal("{\"settings\":{}}", await owner.GetStringAsync(Address));
    }

    [Fact]
    public async Task Choices_AreExportedAndImportedWithTheAccount()
    {
        using var owner = await _service.SignUpAsync();
        (await owner.PutAsync(Address, Bodies.Raw("{\"settings\":{\"14\":\"yes\"}}"))).EnsureSuccessStatusCode();
        var document = await owner.GetStringAsync("/api/v1/accounts/me/export");
        using var other = await _service.SignUpAsync("Another Owner");
        var garden = Guid.Parse(await other.MakeAsync("/api/v1/gardens", Bodies.Garden()));
        _service.Planner.Replanned.Clear();

        (await other.PostAsync("/api/v1/accounts/me/import", Bodies.Raw(document))).EnsureSuccessStatusCode();

        Assert.Equal("{\"settings\":{\"14\":\"yes\"}}", await other.GetStringAsync(Address));
        Assert.Equal([garden], _service.Planner.Replanned);
    }

    [Fact]
    public async Task Points_AreExplainedToAnybody()
    {
        using var anonymous = _service.Anonymous();
        var points = (await anonymous.JsonAsync("/api/v1/settings")).GetProperty("items").EnumerateArray().ToList();
        Assert.Equal(Enumerable.Range(1, 20).Select(number => $"{number}"), points.Select(point => point.GetProperty("number").GetString()));
        Assert.All(points, point => Assert.True(point.GetProperty("choices").TryGetProperty(point.GetProperty("default").GetString()!, out _)));
        Assert.Equal("outline", points[1].GetProperty("alias").GetString());
    }
}
