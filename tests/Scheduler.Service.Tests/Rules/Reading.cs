using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Reads and compares the loose objects of the worked cases.</summary>
internal static class Reading
{
    public static JsonSerializerOptions Options { get; } = Make();

    /// <summary>Text that is equal for equal content, whatever the order of names and alternatives.</summary>
    public static string Canonical(JsonNode? node) => node switch
    {
        JsonObject map => "{" + string.Join(",", map.OrderBy(field => field.Key, StringComparer.Ordinal).Select(field => $"{field.Key}:{Canonical(field.Value)}")) + "}",
        JsonArray list when list.All(one => one is JsonObject) => "[" + string.Join(",", list.Select(Canonical).Order(StringComparer.Ordinal)) + "]",
        JsonArray list => "[" + string.Join(",", list.Select(Canonical)) + "]",
        null => "null",
        _ => node.ToJsonString()
    };

    public static string Canonical(object? value) => Canonical(JsonSerializer.SerializeToNode(value));

    public static string Canonical(JsonElement value) => Canonical(JsonNode.Parse(value.GetRawText()));

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web) { RespectRequiredConstructorParameters = false };
        options.TypeInfoResolver = new System.Text.Json.Serialization.Metadata.DefaultJsonTypeInfoResolver
        {
            // Id and date are set by the test.
            Modifiers = { type => { foreach (var property in type.Properties) property.IsRequired = false; } }
        };
        options.Converters.Add(new IdConverter<CrownZone>());
        options.Converters.Add(new IdConverter<TreeStage>());
        options.Converters.Add(new IdConverter<Goal>());
        options.Converters.Add(new IdConverter<Girth>());
        options.Converters.Add(new IdConverter<BranchRole>());
        return options;
    }

    private sealed class IdConverter<T> : JsonConverter<T> where T : struct, Enum
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            Ids.TryParse<T>(reader.GetString(), out var value) ? value : throw new JsonException(reader.GetString());

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteStringValue(Ids.Of(value));
    }
}
