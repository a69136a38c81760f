using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Accounts;

public sealed partial class AccountsApiTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task SignUp_Open_GivesAKeyThatWorksAndIsNowhereInTheFiles()
    {
        using var anonymous = _service.Anonymous();
        using var answer = await anonymous.PostAsJsonAsync("/api/v1/accounts", new { name = "Invented Owner" });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var account = await answer.Content.ReadFromJsonAsync<JsonElement>();
        var key = account.GetProperty("accessKey").GetString()!;
        Assert.Matches(KeyForm(), key);
        using var owner = _service.WithKey(key);
        var me = await owner.JsonAsync("/api/v1/accounts/me");
        Assert.Equal(account.GetProperty("id").GetString(), me.GetProperty("id").GetString());
        Assert.Equal("Invented Owner", me.GetProperty("name").GetString());
        foreach (var file in Directory.GetFiles(_service.Folder, "*", SearchOption.AllDirectories))
            Assert.DoesNotContain(key[4..], Encoding.Latin1.GetString(await ReadAsync(file)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Me_CanBeRenamed_AndSaysHowPagesAreRead()
    {
        using var owner = await _service.SignUpAsync("Before");
        using var changed = await owner.PatchAsJsonAsync("/api/v1/accounts/me", new { name = "After", units = "imperial" });
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        using var language = await owner.PatchAsJsonAsync("/api/v1/accounts/me", new { language = "de" });
        var me = await owner.JsonAsync("/api/v1/accounts/me");
        Assert.Equal(("After", "imperial", "de"), (me.GetProperty("name").GetString(), me.GetProperty("units").GetString(), me.GetProperty("language").GetString()));
        using var cleared = await owner.PatchAsJsonAsync("/api/v1/accounts/me", new Dictionary<string, string?> { ["units"] = null });
        Assert.Equal(JsonValueKind.Null, (await owner.JsonAsync("/api/v1/accounts/me")).GetProperty("units").ValueKind);
        using var refused = await owner.PatchAsJsonAsync("/api/v1/accounts/me", new { name = "", units = "furlongs", language = "tlh" });
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Equal(3, (await refused.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("errors").EnumerateObject().Count());
    }

    [Theory]
    [InlineData("invited", null, "anything", HttpStatusCode.Forbidden)]
    [InlineData("invited", "open sesame", "wrong", HttpStatusCode.Forbidden)]
    [InlineData("invited", "open sesame", null, HttpStatusCode.Forbidden)]
    [InlineData("invited", "open sesame", "open sesame", HttpStatusCode.Created)]
    [InlineData("closed", "open sesame", "open sesame", HttpStatusCode.Forbidden)]
    [InlineData("open", null, null, HttpStatusCode.Created)]
    public async Task SignUp_EachSetting_LetsInWhomItShould(string setting, string? code, string? given, HttpStatusCode status)
    {
        using var service = new ServiceFactory().With("Accounts:SignUp", setting).With("Accounts:Invitation", code);
        using var anonymous = service.Anonymous();
        using var answer = await anonymous.PostAsJsonAsync("/api/v1/accounts", new { name = "A", invitation = given });
        Assert.Equal(status, answer.StatusCode);
    }

    [Theory]
    [InlineData("http://127.0.0.1:5080", HttpStatusCode.Created)]
    [InlineData("http://localhost:1;http://[::1]:2", HttpStatusCode.Created)]
    [InlineData("http://0.0.0.0:5080", HttpStatusCode.Forbidden)]
    [InlineData("http://127.0.0.1:1;http://192.0.2.1:2", HttpStatusCode.Forbidden)]
    [InlineData("http://*:80", HttpStatusCode.Forbidden)]
    public async Task SignUp_NoSetting_IsOpenOnLoopbackOnly(string urls, HttpStatusCode status)
    {
        using var service = new ServiceFactory().With("Urls", urls);
        using var anonymous = service.Anonymous();
        using var answer = await anonymous.PostAsJsonAsync("/api/v1/accounts", new { name = "A" });
        Assert.Equal(status, answer.StatusCode);
    }

    [Fact]
    public async Task SignUp_UnknownSetting_RefusesToStart()
    {
        using var service = new ServiceFactory().With("Accounts:SignUp", "maybe");
        var fault = await Assert.ThrowsAnyAsync<Exception>(() => service.SignUpAsync());
        Assert.Contains("open, invited or closed", fault.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Erase_Account_LeavesNothingAndTheKeyIsDead()
    {
        using var other = await _service.SignUpAsync("Other");
        await other.GetAsync("/api/v1/gardens");
        var before = DatabaseDump.Of(_service);
        using var owner = await _service.SignUpAsync("Gone");
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var tree = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        await owner.MakeAsync($"/api/v1/trees/{tree}/work", Bodies.Work());
        await owner.MakeAsync($"/api/v1/trees/{tree}/observations", Bodies.Observation());
        await owner.MakeAsync($"/api/v1/gardens/{garden}/observations", Bodies.Bench());
        Assert.NotEqual(before, DatabaseDump.Of(_service));
        Assert.Equal(HttpStatusCode.NoContent, (await owner.DeleteAsync("/api/v1/accounts/me")).StatusCode);
        Assert.Equal(before, DatabaseDump.Of(_service));
        Assert.Equal(HttpStatusCode.Unauthorized, (await owner.GetAsync("/api/v1/accounts/me")).StatusCode);
    }

    private static async Task<byte[]> ReadAsync(string file)
    {
        await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[stream.Length];
        await stream.ReadExactlyAsync(bytes);
        return bytes;
    }

    [GeneratedRegex("^key_[A-Za-z0-9_-]{43}$")]
    private static partial Regex KeyForm();
}
