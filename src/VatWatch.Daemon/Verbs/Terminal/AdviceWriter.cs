using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using VatWatch.Daemon.Plans;

namespace VatWatch.Daemon.Verbs.Terminal;

/// <summary>Writes what a verb advises for a person or for other programs.</summary>
internal static class AdviceWriter
{
    private static readonly JsonWriterOptions OneLine = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly JsonWriterOptions Readable = OneLine with { Indented = true };

    /// <summary>Says why nothing is advised.</summary>
    public static int Refuse(string refused, bool json, VerbConsole console)
    {
        if (!json)
        {
            return console.Fail(ExitCode.Failure, refused);
        }

        WriteJson(console.Out, writer => writer.WriteString("refused", refused));
        return ExitCode.Failure;
    }

    public static void WriteJson(TextWriter output, Action<Utf8JsonWriter> members) => WriteJsonValue(output, writer => WriteObject(writer, members));

    /// <summary>An object on a line of its own.</summary>
    public static void WriteJsonLine(TextWriter output, Action<Utf8JsonWriter> members) => Write(output, writer => WriteObject(writer, members), OneLine);

    /// <summary>Writes any JSON.</summary>
    public static void WriteJsonValue(TextWriter output, Action<Utf8JsonWriter> value) => Write(output, value, Readable);

    /// <summary>A number that may be missing.</summary>
    public static void WriteNumber(Utf8JsonWriter writer, string name, double? number)
    {
        if (number is { } value && double.IsFinite(value))
        {
            writer.WriteNumber(name, value);
        }
        else
        {
            writer.WriteNull(name);
        }
    }

    /// <summary>A moment that may be missing, with the offset of its zone.</summary>
    public static void WriteTime(Utf8JsonWriter writer, string name, DateTimeOffset? moment, TimeZoneInfo zone)
    {
        if (moment is { } at)
        {
            writer.WriteString(name, PlanClock.Local(at, zone));
        }
        else
        {
            writer.WriteNull(name);
        }
    }

    private static void Write(TextWriter output, Action<Utf8JsonWriter> value, JsonWriterOptions options)
    {
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, options))
        {
            value(writer);
        }

        output.WriteLine(Encoding.UTF8.GetString(buffer.ToArray()));
    }

    /// <summary>Writes a list of objects.</summary>
    public static void WriteObjects<T>(Utf8JsonWriter writer, string name, IEnumerable<T> all, Action<T> members)
    {
        writer.WriteStartArray(name);
        foreach (var one in all)
        {
            WriteObject(writer, _ => members(one));
        }

        writer.WriteEndArray();
    }

    private static void WriteObject(Utf8JsonWriter writer, Action<Utf8JsonWriter> members)
    {
        writer.WriteStartObject();
        members(writer);
        writer.WriteEndObject();
    }

    /// <summary>Writes a list of sentences.</summary>
    public static void WriteSentences(Utf8JsonWriter writer, string name, IEnumerable<string> sentences)
    {
        writer.WriteStartArray(name);
        foreach (var sentence in sentences)
        {
            writer.WriteStringValue(sentence);
        }

        writer.WriteEndArray();
    }

    /// <summary>The same for a person.</summary>
    public static void WriteList(string title, IEnumerable<string> sentences, TextWriter output)
    {
        output.WriteLine();
        output.WriteLine(title);
        foreach (var sentence in sentences)
        {
            output.WriteLine($"  - {sentence}");
        }
    }
}
