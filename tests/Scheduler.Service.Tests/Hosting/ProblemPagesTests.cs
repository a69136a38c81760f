using System.Net;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Service.Plans;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class ProblemPagesTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Theory]
    [InlineData("GET", "/no/such/address", HttpStatusCode.NotFound)]
    [InlineData("GET", "/api/v1/nothing", HttpStatusCode.NotFound)]
    [InlineData("GET", "/api/v1/gardens/not-an-id", HttpStatusCode.NotFound)]
    [InlineData("DELETE", "/health/live", HttpStatusCode.MethodNotAllowed)]
    [InlineData("PUT", "/api/v1/accounts/me", HttpStatusCode.MethodNotAllowed)]
    public async Task Address_WrongOrWrongMethod_GivesAProblem(string method, string path, HttpStatusCode status)
    {
        using var owner = await _service.SignUpAsync();
        using var answer = await owner.SendAsync(new HttpRequestMessage(new HttpMethod(method), path));
        await AssertProblemAsync(answer, status);
    }

    [Theory]
    [InlineData("", HttpStatusCode.BadRequest)]
    [InlineData("{\"name\":", HttpStatusCode.BadRequest)]
    [InlineData("[]", HttpStatusCode.BadRequest)]
    [InlineData("null", HttpStatusCode.BadRequest)]
    [InlineData("{\"name\":\"a\",\"name\":\"b\"}", HttpStatusCode.BadRequest)]
    [InlineData("{\"name\":\"\\ud800\"}", HttpStatusCode.BadRequest)]
    [InlineData("{\"\\udc00\":1}", HttpStatusCode.BadRequest)]
    [InlineData("{\"name\":\"a\"} trailing", HttpStatusCode.BadRequest)]
    public async Task Body_NoJsonObject_GivesAProblem(string body, HttpStatusCode status)
    {
        using var anonymous = _service.Anonymous();
        using var answer = await anonymous.PostAsync("/api/v1/accounts", Bodies.Raw(body));
        await AssertProblemAsync(answer, status);
    }

    [Fact]
    public async Task Body_NestedTooDeep_GivesAProblem()
    {
        using var anonymous = _service.Anonymous();
        var deep = $"{{\"name\":{new string('[', 5000)}{new string(']', 5000)}}}";
        using var answer = await anonymous.PostAsync("/api/v1/accounts", Bodies.Raw(deep));
        await AssertProblemAsync(answer, HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Body_BytesThatAreNoText_GivesAProblem()
    {
        using var anonymous = _service.Anonymous();
        using var content = new ByteArrayContent([.. "{\"name\":\""u8, 0xff, 0xfe, .. "\"}"u8]);
        content.Headers.ContentType = new("application/json");
        using var answer = await anonymous.PostAsync("/api/v1/accounts", content);
        await AssertProblemAsync(answer, HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Body_OtherContentType_GivesAProblem()
    {
        using var anonymous = _service.Anonymous();
        using var answer = await anonymous.PostAsync("/api/v1/accounts", new StringContent("name=a", Encoding.UTF8, "text/plain"));
        await AssertProblemAsync(answer, HttpStatusCode.UnsupportedMediaType);
    }

    [Fact]
    public async Task Body_TooLarge_GivesAProblem()
    {
        using var anonymous = _service.Anonymous();
        using var answer = await anonymous.PostAsync("/api/v1/accounts", Bodies.Raw($"{{\"name\":\"{new string('x', 70_000)}\"}}"));
        await AssertProblemAsync(answer, HttpStatusCode.RequestEntityTooLarge);
    }

    [Fact]
    public async Task Bug_InAHandler_GivesAProblemWithoutDetails()
    {
        using var service = new ServiceFactory { Replacing = services => services.AddSingleton<IGardenPlanner, BrokenPlanner>() };
        using var owner = await service.SignUpAsync();
        using var answer = await owner.PostAsync("/api/v1/gardens", Bodies.Raw(Bodies.Garden().ToJsonString()));
        var text = await AssertProblemAsync(answer, HttpStatusCode.InternalServerError);
        Assert.DoesNotContain("broken on purpose", text, StringComparison.Ordinal);
        Assert.DoesNotContain(" at ", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_OfAnyKind_CarriesSecurityHeaders()
    {
        using var anonymous = _service.Anonymous();
        using var answer = await anonymous.GetAsync("/nowhere");
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Contains("default-src 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.False(answer.Headers.Contains("Server"));
    }

    private static async Task<string> AssertProblemAsync(HttpResponseMessage answer, HttpStatusCode status)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == status, $"{answer.StatusCode}: {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = JsonDocument.Parse(text).RootElement;
        Assert.Equal((int)status, problem.GetProperty("status").GetInt32());
        Assert.NotEqual("", problem.GetProperty("title").GetString());
        Assert.NotEqual("", problem.GetProperty("detail").GetString());
        return text;
    }

    private sealed class BrokenPlanner : IGardenPlanner
    {
        public Task ReplanAsync(Guid gardenId, CancellationToken cancel = default) => throw new InvalidOperationException("broken on purpose");
    }

    [Fact]
    public async Task ApiPage_MayRunItsOwnScriptAndNothingFromElsewhere()
    {
        using var client = _service.Anonymous();
        using var answer = await client.GetAsync("/docs/");
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("script-src 'self' 'unsafe-inline'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("https://", (await answer.Content.ReadAsStringAsync()).Replace("https://scalar.com", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }
}
