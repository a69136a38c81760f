using System.Net;
using System.Text.Json;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class IdempotencyFilterTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Key_SameRequestTwice_GivesTheFirstAnswerAndOneRow()
    {
        using var owner = await _service.SignUpAsync();
        var (first, again) = (await SendAsync(owner, "k1", Garden("A")), await SendAsync(owner, "k1", Garden("A")));
        Assert.Equal((HttpStatusCode.Created, first.Text, first.Location), (again.Status, again.Text, again.Location));
        Assert.Single(_service.Planner.Replanned);
        Assert.Equal(1, (await owner.JsonAsync("/api/v1/gardens")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Key_OtherBody_IsUnprocessableAndAddsNothing()
    {
        using var owner = await _service.SignUpAsync();
        await SendAsync(owner, "k1", Garden("A"));
        var before = DatabaseDump.Of(_service);
        var other = await SendAsync(owner, "k1", Garden("B"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.Status);
        Assert.Contains("Use a new key", other.Text, StringComparison.Ordinal);
        Assert.Equal(before, DatabaseDump.Of(_service));
    }

    [Fact]
    public async Task Key_ManyAtOnce_DoTheWorkOnce()
    {
        _service.Planner.Takes = TimeSpan.FromMilliseconds(300);
        using var owner = await _service.SignUpAsync();
        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => SendAsync(owner, "same", Garden("A"))));
        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
        Assert.Single(answers.Select(answer => answer.Text).Distinct());
        Assert.Equal(1, (await owner.JsonAsync("/api/v1/gardens")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Key_OfAnotherAccount_IsAnotherKey()
    {
        using var one = await _service.SignUpAsync();
        using var other = await _service.SignUpAsync();
        var (first, second) = (await SendAsync(one, "k1", Garden("A")), await SendAsync(other, "k1", Garden("A")));
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.Status, second.Status));
        Assert.NotEqual(first.Text, second.Text);
    }

    [Fact]
    public async Task Key_AfterARefusal_IsFreeForTheCorrectedBody()
    {
        using var owner = await _service.SignUpAsync();
        var bad = await SendAsync(owner, "k1", "{\"name\":\"A\"}");
        var good = await SendAsync(owner, "k1", Garden("A"));
        Assert.Equal((HttpStatusCode.BadRequest, HttpStatusCode.Created), (bad.Status, good.Status));
    }

    [Fact]
    public async Task Key_ClientHangsUp_AnswerIsThereWhenItAsksAgain()
    {
        _service.Planner.Takes = TimeSpan.FromMilliseconds(800);
        using var owner = await _service.SignUpAsync();
        using var hangUp = new CancellationTokenSource(TimeSpan.FromMilliseconds(250));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => SendAsync(owner, "k1", Garden("A"), hangUp.Token));
        var again = await SendAsync(owner, "k1", Garden("A"));
        Assert.True(again.Status is HttpStatusCode.Created, again.Text);
        Assert.Equal(1, (await owner.JsonAsync("/api/v1/gardens")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Key_AtSignUp_GivesTheSameAccountAndIsNotKeptInClear()
    {
        using var anonymous = _service.Anonymous();
        var first = await SendAsync(anonymous, "sign-me-up", "{\"name\":\"A\"}", path: "accounts");
        var again = await SendAsync(anonymous, "sign-me-up", "{\"name\":\"A\"}", path: "accounts");
        Assert.Equal(first.Text, again.Text);
        var key = JsonDocument.Parse(first.Text).RootElement.GetProperty("accessKey").GetString()!;
        Assert.DoesNotContain(key, DatabaseDump.Of(_service), StringComparison.Ordinal);
        Assert.DoesNotContain("sign-me-up", DatabaseDump.Of(_service), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Key_EmptyOrTooLong_IsRefused()
    {
        using var owner = await _service.SignUpAsync();
        Assert.Equal(HttpStatusCode.BadRequest, (await SendAsync(owner, new string('k', 256), Garden("A"))).Status);
    }

    private static string Garden(string name)
    {
        var garden = Bodies.Garden();
        garden["name"] = name;
        return garden.ToJsonString();
    }

    private static async Task<(HttpStatusCode Status, string Text, string? Location)> SendAsync(
        HttpClient client, string key, string body, CancellationToken cancel = default, string path = "gardens")
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/{path}") { Content = Bodies.Raw(body) };
        request.Headers.Add("Idempotency-Key", key);
        using var answer = await client.SendAsync(request, cancel);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(cancel), answer.Headers.Location?.ToString());
    }
}
