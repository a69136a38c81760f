using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Accounts;

public sealed class KeysApiTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task Key_Further_WorksUntilItIsRevoked()
    {
        using var owner = await _service.SignUpAsync();
        using var made = await owner.PostAsJsonAsync("/api/v1/accounts/me/keys", new { label = "phone" });
        Assert.Equal(HttpStatusCode.Created, made.StatusCode);
        var answer = await made.Content.ReadFromJsonAsync<JsonElement>();
        using var phone = _service.WithKey(answer.GetProperty("accessKey").GetString()!);
        Assert.Equal(HttpStatusCode.OK, (await phone.GetAsync("/api/v1/accounts/me")).StatusCode);
        var text = await owner.GetStringAsync("/api/v1/accounts/me/keys");
        Assert.DoesNotContain("accessKey", text, StringComparison.Ordinal);
        Assert.DoesNotContain("key_", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NoContent, (await owner.DeleteAsync($"/api/v1/accounts/me/keys/{answer.GetProperty("id").GetString()}")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await phone.GetAsync("/api/v1/accounts/me")).StatusCode);
    }

    [Fact]
    public async Task Key_LastOne_CannotBeRevoked()
    {
        using var owner = await _service.SignUpAsync();
        var only = (await owner.JsonAsync("/api/v1/accounts/me/keys")).GetProperty("items")[0];
        Assert.True(only.GetProperty("current").GetBoolean());
        using var refused = await owner.DeleteAsync($"/api/v1/accounts/me/keys/{only.GetProperty("id").GetString()}");
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync("/api/v1/accounts/me")).StatusCode);
    }

    [Theory]
    [InlineData("key_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("short")]
    [InlineData("' OR '1'='1")]
    public async Task Key_Unknown_AnswersAlikeWhateverItsForm(string key)
    {
        using var none = _service.Anonymous();
        using var wrong = _service.Anonymous();
        wrong.DefaultRequestHeaders.TryAddWithoutValidation("Authorization", $"Bearer {key}");
        using var without = await none.GetAsync("/api/v1/gardens");
        using var with = await wrong.GetAsync("/api/v1/gardens");
        Assert.Equal((HttpStatusCode.Unauthorized, HttpStatusCode.Unauthorized), (without.StatusCode, with.StatusCode));
        Assert.Equal(await without.Content.ReadAsStringAsync(), await with.Content.ReadAsStringAsync());
        Assert.Equal(without.Headers.ToString(), with.Headers.ToString());
    }
}
