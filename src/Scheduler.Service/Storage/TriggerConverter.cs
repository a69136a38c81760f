using System.Text.Json;
using System.Text.Json.Serialization;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Service.Storage;

/// <summary>A trigger as the object it is written as in the catalog: <c>{"bbch": 10}</c>.</summary>
internal sealed class TriggerConverter : JsonConverter<Trigger>
{
    // Triggers differ in type; each is written by its fields.
    public override bool CanConvert(Type typeToConvert) => typeof(Trigger).IsAssignableFrom(typeToConvert);

    public override void Write(Utf8JsonWriter writer, Trigger value, JsonSerializerOptions options) =>
        JsonSerializer.Serialize(writer, value.Fields, options);

    public override Trigger Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        using var document = JsonDocument.ParseValue(ref reader);
        if (document.RootElement.ValueKind != JsonValueKind.Object)
            throw new JsonException("A trigger is an object.");
        var (trigger, fault) = TriggerReader.Read(Fields(document.RootElement));
        return trigger ?? throw new JsonException(fault);
    }

    private static Dictionary<string, object?> Fields(JsonElement map) =>
        map.EnumerateObject().ToDictionary(field => field.Name, field => Plain(field.Value), StringComparer.Ordinal);

    private static object? Plain(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => Fields(value),
        JsonValueKind.Array => (IReadOnlyList<object?>)[.. value.EnumerateArray().Select(Plain)],
        JsonValueKind.String => value.GetString(),
        JsonValueKind.Number => value.GetDouble(),
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => null
    };
}
