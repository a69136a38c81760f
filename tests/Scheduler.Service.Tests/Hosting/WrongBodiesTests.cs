using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Scheduler.Service.Accounts;
using Scheduler.Service.Gardens;
using Scheduler.Service.Tests.Support;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Tests.Hosting;

/// <summary>Every field of every body, wrong in turn and all at once: one problem document each, and the database as it was.</summary>
public sealed class WrongBodiesTests : IClassFixture<WrongBodiesTests.Planted>
{
    private readonly Planted _planted;

    public WrongBodiesTests(Planted planted) => _planted = planted;

    public static TheoryData<string> Bodies => [.. Planted.Kinds.Keys];

    [Theory]
    [MemberData(nameof(Bodies))]
    public async Task Body_EachFieldWrongInTurn_NamesTheFieldAndChangesNothing(string kind)
    {
        var (method, path, sound, wrong) = _planted.Of(kind);
        var before = DatabaseDump.Of(_planted.Service);
        foreach (var field in wrong)
        {
            var body = sound.DeepClone().AsObject();
            body.Remove(field.Field);
            var errors = await RefusedAsync(method, path, With(body, [field]));
            Assert.True(errors.TryGetProperty(field.Key, out var texts), $"{field}: {errors}");
            Assert.Single(errors.EnumerateObject());
            var text = Assert.Single(texts.EnumerateArray()).GetString()!;
            Assert.StartsWith(field.Key, text, StringComparison.Ordinal);
            Assert.Contains(field.Says, text, StringComparison.Ordinal);
        }
        Assert.Equal(before, DatabaseDump.Of(_planted.Service));
    }

    [Theory]
    [MemberData(nameof(Bodies))]
    public async Task Body_AllFieldsWrong_NamesAllInOneAnswer(string kind)
    {
        var (method, path, sound, wrong) = _planted.Of(kind);
        var before = DatabaseDump.Of(_planted.Service);
        var firsts = wrong.GroupBy(field => field.Field).Select(group => group.First()).ToList();
        Assert.Equal(sound.Select(field => field.Key).Order(), firsts.Select(field => field.Field).Order());
        var errors = await RefusedAsync(method, path, With([], [.. firsts, new WrongField("colour", "\"green\"", "colour", "no field")]));
        Assert.Equal(firsts.Select(field => field.Key).Append("colour").Order(), errors.EnumerateObject().Select(error => error.Name).Order());
        Assert.Equal(before, DatabaseDump.Of(_planted.Service));
    }

    [Theory]
    [MemberData(nameof(Bodies))]
    public async Task Body_FieldsLeftOut_MissesOnlyTheRequiredOnes(string kind)
    {
        var (method, path, sound, wrong) = _planted.Of(kind);
        if (method == "PATCH" || kind == "key")
            return;
        var errors = await RefusedAsync(method, path, "{}");
        var required = wrong.Where(field => field.Json == "null").Select(field => field.Field).ToList();
        Assert.Equal(required.Order(), errors.EnumerateObject().Select(error => error.Name).Order());
        Assert.Contains("missing", errors.EnumerateObject().First().Value[0].GetString(), StringComparison.Ordinal);
        Assert.All(required, field => Assert.True(sound.ContainsKey(field)));
    }

    [Theory]
    [InlineData("account", typeof(SignUpRequest))]
    [InlineData("key", typeof(KeyRequest))]
    [InlineData("garden", typeof(GardenRequest))]
    [InlineData("tree", typeof(TreeRequest))]
    [InlineData("work", typeof(WorkRequest))]
    [InlineData("bench", typeof(BenchObservationRequest))]
    [InlineData("observation", typeof(ObservationRequest))]
    public async Task Body_UnknownField_IsToldTheFieldsOfTheApiDocument(string kind, Type documented)
    {
        var (method, path, sound, _) = _planted.Of(kind);
        var body = sound.DeepClone().AsObject();
        body["leaves"] = new JsonArray();
        var errors = await RefusedAsync(method, path, body.ToJsonString());
        var text = errors.GetProperty("leaves")[0].GetString()!;
        var named = text[(text.IndexOf("one of: ", StringComparison.Ordinal) + 8)..].TrimEnd('.').Split(", ");
        var properties = documented.GetProperties().Select(property => JsonNamingPolicy.CamelCase.ConvertName(property.Name));
        Assert.Equal(properties.Order(), named.Order());
    }

    private static string With(JsonObject body, IEnumerable<WrongField> wrong)
    {
        // Put in as text, so that values that no JSON library would write can be sent.
        var fields = body.Select(field => $"\"{field.Key}\":{field.Value?.ToJsonString() ?? "null"}")
            .Concat(wrong.Select(field => $"\"{field.Field}\":{field.Json}"));
        return $"{{{string.Join(",", fields)}}}";
    }

    private async Task<JsonElement> RefusedAsync(string method, string path, string body)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), path) { Content = Support.Bodies.Raw(body) };
        using var answer = await _planted.Owner.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode is HttpStatusCode.BadRequest, $"{answer.StatusCode} to {body}: {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        return JsonDocument.Parse(text).RootElement.GetProperty("errors");
    }

    /// <summary>An account with a garden and a tree.</summary>
    public sealed class Planted : IAsyncLifetime
    {
        public static readonly IReadOnlyDictionary<string, (string Method, string Path, Func<JsonObject> Sound, IReadOnlyList<WrongField> Wrong)> Kinds =
            new Dictionary<string, (string, string, Func<JsonObject>, IReadOnlyList<WrongField>)>
            {
                ["account"] = ("POST", "accounts", () => new JsonObject { ["name"] = "A", ["invitation"] = "none" }, WrongFields.Account),
                ["key"] = ("POST", "accounts/me/keys", () => new JsonObject { ["label"] = "phone" }, WrongFields.Key),
                ["garden"] = ("POST", "gardens", Support.Bodies.Garden, WrongFields.Garden),
                ["garden change"] = ("PATCH", "gardens/{garden}", Support.Bodies.Garden, WrongFields.Garden),
                ["tree"] = ("POST", "gardens/{garden}/trees", Support.Bodies.Tree, WrongFields.Tree),
                ["tree change"] = ("PATCH", "trees/{tree}", Support.Bodies.Tree, WrongFields.Tree),
                ["work"] = ("POST", "trees/{tree}/work", Support.Bodies.Work, WrongFields.Work),
                ["observation"] = ("POST", "trees/{tree}/observations", Support.Bodies.Observation, WrongFields.Observation),
                ["bench"] = ("POST", "gardens/{garden}/observations", Support.Bodies.Bench, WrongFields.Bench)
            };

        private string _garden = "";
        private string _tree = "";

        public ServiceFactory Service { get; } = new ServiceFactory().With("RateLimits:SignUpsPerTenMinutes", "1000");

        public HttpClient Owner { get; private set; } = null!;

        public async Task InitializeAsync()
        {
            Owner = await Service.SignUpAsync();
            _garden = await Owner.MakeAsync("/api/v1/gardens", Support.Bodies.Garden());
            _tree = await Owner.MakeAsync($"/api/v1/gardens/{_garden}/trees", Support.Bodies.Tree());
        }

        public async Task DisposeAsync()
        {
            Owner.Dispose();
            await Service.DisposeAsync();
        }

        public (string Method, string Path, JsonObject Sound, IReadOnlyList<WrongField> Wrong) Of(string kind)
        {
            var (method, path, sound, wrong) = Kinds[kind];
            return (method, $"/api/v1/{path.Replace("{garden}", _garden).Replace("{tree}", _tree)}", sound(), wrong);
        }
    }
}
