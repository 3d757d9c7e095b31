using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace VatWatch.Vats.Configuration;

/// <summary>Opens a configuration file: JSON with comments and trailing commas, one object, at most 1 MiB.</summary>
public static class ConfigFile
{
    /// <summary>A larger file is not a configuration; it is refused unread.</summary>
    public const int MaximumBytes = 1024 * 1024;

    /// <summary>Reads <paramref name="path"/>; null after filing a fault when it cannot be read or is not JSON.</summary>
    public static ConfigNode? Open(string path, ConfigFaults faults)
    {
        try
        {
            if (!File.Exists(path))
            {
                faults.Add("", $"missing: there is no file {ConfigNode.Quote(path)}", "a readable file (--config FILE)");
                return null;
            }

            // A pipe or a device has no length and may have no end either.
            var length = new FileInfo(File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path).Length;
            if (length is 0 or > MaximumBytes)
            {
                faults.Add("", length == 0 ? "empty, or a pipe or a device" : $"{length} bytes long", $"a file on a disk of at most {MaximumBytes} bytes");
                return null;
            }

            faults.Folder = Path.GetDirectoryName(path) ?? "";
            return Parse(File.ReadAllBytes(path), faults);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            faults.Add("", $"unreadable: {e.Message}", "a readable file (--config FILE)");
            return null;
        }
    }

    /// <summary>Half of a surrogate pair (<c>"\ud800"</c>) is legal JSON and no text; it is found here, before anybody asks for it.</summary>
    private static void ReadEveryText(JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.String:
                element.GetString();
                break;
            case JsonValueKind.Array:
                foreach (var item in element.EnumerateArray())
                {
                    ReadEveryText(item);
                }

                break;
            case JsonValueKind.Object:
                foreach (var member in element.EnumerateObject())
                {
                    _ = member.Name;
                    ReadEveryText(member.Value);
                }

                break;
        }
    }

    /// <summary>Reads UTF-8 JSON; null after filing a fault.</summary>
    public static ConfigNode? Parse(ReadOnlyMemory<byte> utf8, ConfigFaults faults)
    {
        if (utf8.Span.StartsWith(Encoding.UTF8.Preamble))
        {
            utf8 = utf8[Encoding.UTF8.Preamble.Length..];
        }

        if (!Utf8.IsValid(utf8.Span))
        {
            faults.Add("", "not text in UTF-8", "a file saved as UTF-8");
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(utf8, new JsonDocumentOptions
            {
                CommentHandling = JsonCommentHandling.Skip,
                AllowTrailingCommas = true,
                MaxDepth = 32,
            });
            ReadEveryText(document.RootElement);
            return new ConfigNode(document.RootElement.Clone(), "", faults);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            var where = e is JsonException { LineNumber: { } line, BytePositionInLine: { } column }
                ? $"line {line + 1}, character {column + 1}"
                : "somewhere in its text";
            faults.Add("", $"not JSON at {where}", "one JSON object; comments // and /* */ are allowed");
            return null;
        }
    }
}
