using System.Text.Json.Nodes;

namespace VatWatch.Daemon.Tests.Wiring;

/// <summary>Every key path that a schema of objects and lists describes, such as <c>vats[].temperature.low</c>; <c>*</c> stands for a name that people choose.</summary>
internal static class SchemaKeys
{
    private static readonly string[] Several = ["allOf", "anyOf", "oneOf"];
    private static readonly string[] One = ["then", "else"];

    public static IReadOnlySet<string> Of(JsonObject schema)
    {
        var keys = new HashSet<string>(StringComparer.Ordinal);
        Walk(schema, schema, "", keys);
        return keys;
    }

    private static void Walk(JsonObject root, JsonNode? node, string path, HashSet<string> keys)
    {
        if (node is not JsonObject schema)
        {
            return;
        }

        if (schema["$ref"]?.GetValue<string>() is { } reference)
        {
            Walk(root, root["$defs"]![reference.Split('/')[^1]], path, keys);
        }

        foreach (var (key, described) in schema["properties"] as JsonObject ?? [])
        {
            var at = path.Length == 0 ? key : $"{path}.{key}";
            keys.Add(at);
            Walk(root, described, at, keys);
        }

        Walk(root, schema["items"], $"{path}[]", keys);
        if (schema["additionalProperties"] is JsonObject any)
        {
            keys.Add($"{path}.*");
            Walk(root, any, $"{path}.*", keys);
        }

        foreach (var branch in Several.SelectMany(word => schema[word] as JsonArray ?? []).Concat(One.Select(word => schema[word])))
        {
            Walk(root, branch, path, keys);
        }
    }
}
