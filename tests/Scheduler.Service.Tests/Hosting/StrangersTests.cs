using System.Net;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

/// <summary>What belongs to somebody else answers byte for byte like what does not exist.</summary>
public sealed class StrangersTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Stranger_EveryAddress_AnswersLikeMissing()
    {
        using var owner = await _service.SignUpAsync();
        using var stranger = await _service.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var tree = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        var work = await owner.MakeAsync($"/api/v1/trees/{tree}/work", Bodies.Work());
        var seen = await owner.MakeAsync($"/api/v1/trees/{tree}/observations", Bodies.Observation());
        var bench = await owner.MakeAsync($"/api/v1/gardens/{garden}/observations", Bodies.Bench());
        var key = await owner.MakeAsync("/api/v1/accounts/me/keys", new System.Text.Json.Nodes.JsonObject());
        await stranger.GetAsync("/api/v1/gardens");
        var before = DatabaseDump.Of(_service);
        (string Method, string Path, string? Body)[] requests =
        [
            ("GET", $"gardens/{garden}", null), ("PATCH", $"gardens/{garden}", "{\"name\":\"mine now\"}"), ("PATCH", $"gardens/{garden}", "{\"name\":7}"),
            ("DELETE", $"gardens/{garden}", null), ("GET", $"gardens/{garden}/trees", null),
            ("POST", $"gardens/{garden}/trees", Bodies.Tree().ToJsonString()), ("POST", $"gardens/{garden}/trees", "{}"),
            ("GET", $"gardens/{garden}/observations", null), ("POST", $"gardens/{garden}/observations", Bodies.Bench().ToJsonString()),
            ("GET", $"gardens/{garden}/observations/{bench}", null), ("DELETE", $"gardens/{garden}/observations/{bench}", null),
            ("GET", $"trees/{tree}", null), ("PATCH", $"trees/{tree}", "{\"name\":\"mine now\"}"), ("DELETE", $"trees/{tree}", null),
            ("GET", $"trees/{tree}/work", null), ("POST", $"trees/{tree}/work", Bodies.Work().ToJsonString()),
            ("GET", $"trees/{tree}/work/{work}", null), ("DELETE", $"trees/{tree}/work/{work}", null),
            ("GET", $"trees/{tree}/follow-ups", null), ("DELETE", $"trees/{tree}/follow-ups/{work}", null), ("GET", $"gardens/{garden}/follow-ups", null),
            ("GET", $"trees/{tree}/observations", null), ("POST", $"trees/{tree}/observations", Bodies.Observation().ToJsonString()),
            ("GET", $"trees/{tree}/observations/{seen}", null), ("DELETE", $"trees/{tree}/observations/{seen}", null),
            ("GET", $"accounts/me/keys/{key}", null), ("DELETE", $"accounts/me/keys/{key}", null)
        ];
        var nowhere = await AskAsync(stranger, "GET", "no-such-address", null);
        foreach (var (method, path, body) in requests)
        {
            var foreign = await AskAsync(stranger, method, path, body);
            var missing = await AskAsync(stranger, method, Unknown(path), body);
            Assert.Equal(HttpStatusCode.NotFound, foreign.Status);
            Assert.Equal(missing, foreign);
            Assert.Equal(nowhere.Body, foreign.Body);
        }
        Assert.Equal(before, DatabaseDump.Of(_service));
        Assert.Equal(0, (await stranger.JsonAsync("/api/v1/gardens")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Log_OfAnotherTreeOfTheSameOwner_IsNotFoundUnderThisOne()
    {
        using var owner = await _service.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var one = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        var other = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        var work = await owner.MakeAsync($"/api/v1/trees/{one}/work", Bodies.Work());
        var seen = await owner.MakeAsync($"/api/v1/trees/{one}/observations", Bodies.Observation());
        Assert.Equal(HttpStatusCode.NotFound, (await owner.DeleteAsync($"/api/v1/trees/{other}/work/{work}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.DeleteAsync($"/api/v1/trees/{other}/observations/{seen}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.DeleteAsync($"/api/v1/gardens/{garden}/observations/{seen}")).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await owner.DeleteAsync($"/api/v1/trees/{one}/work/{work}")).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await owner.DeleteAsync($"/api/v1/trees/{one}/observations/{seen}")).StatusCode);
    }

    private static string Unknown(string path) =>
        string.Join('/', path.Split('/').Select(part => Guid.TryParse(part, out _) ? Guid.NewGuid().ToString() : part));

    private static async Task<(HttpStatusCode Status, string Body, string Headers)> AskAsync(HttpClient client, string method, string path, string? body)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), $"/api/v1/{path}") { Content = body is null ? null : Bodies.Raw(body) };
        using var answer = await client.SendAsync(request);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(), $"{answer.Headers}{answer.Content.Headers}");
    }
}
