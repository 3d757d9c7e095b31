using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using VatWatch.Daemon.Dosing;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary>Writes a dose for a person, in grams and ounces, or for other programs.</summary>
internal static class DoseWriter
{
    private static readonly JsonWriterOptions Readable = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes the answer, for a person with their unit first, and gives the exit code: 0 for advice, 1 for a refusal.</summary>
    public static int Write(DoseAnswer answer, DisplayUnits units, bool json, VerbConsole console)
    {
        if (json)
        {
            WriteJson(answer, console.Out);
            return answer.IsRefused ? ExitCode.Failure : ExitCode.Success;
        }

        if (answer.IsRefused)
            return console.Fail(ExitCode.Failure, answer.Refusal);

        WriteText(answer.Advice, units, console.Out);
        return ExitCode.Success;
    }

    /// <summary>Writes every figure that could not be read and gives the exit code; null if there is none.</summary>
    public static int? Complain(DoseFigures figures, VerbConsole console)
    {
        foreach (var fault in figures.Faults)
            console.Fail(ExitCode.WrongUsage, fault);

        return figures.Faults.Count > 0 ? ExitCode.WrongUsage : null;
    }

    private static void WriteJson(DoseAnswer answer, TextWriter output)
    {
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, Readable))
        {
            writer.WriteStartObject();
            if (answer.IsRefused)
                writer.WriteString("refused", answer.Refusal);
            else
                WriteAdvice(writer, answer.Advice);

            writer.WriteEndObject();
        }

        output.WriteLine(Encoding.UTF8.GetString(buffer.ToArray()));
    }

    private static void WriteAdvice(Utf8JsonWriter writer, DoseAdvice advice)
    {
        writer.WriteNumber("grams", Math.Round(advice.Grams, 2));
        writer.WriteNumber("ounces", Math.Round(advice.Grams / DisplayUnits.GramsPerOunce, 3));
        writer.WriteNumber("lowGrams", Math.Round(advice.LowGrams, 2));
        writer.WriteNumber("highGrams", Math.Round(advice.HighGrams, 2));
        writer.WriteNumber("firstPortionGrams", Math.Round(advice.FirstPortionGrams, 2));
        writer.WriteNumber("waitMinutes", advice.Wait.Minutes);
        WriteSentences(writer, "assumptions", advice.Assumptions);
        WriteSentences(writer, "cautions", advice.Cautions);
    }

    private static void WriteSentences(Utf8JsonWriter writer, string name, IReadOnlyList<string> sentences)
    {
        writer.WriteStartArray(name);
        foreach (var sentence in sentences)
            writer.WriteStringValue(sentence);

        writer.WriteEndArray();
    }

    private static void WriteText(DoseAdvice advice, DisplayUnits units, TextWriter output)
    {
        output.WriteLine($"WEIGH OUT {DoseMass.Of(advice.FirstPortionGrams, units)} of {advice.Substance}");
        output.WriteLine($"  then wait {advice.Wait.LeastMinutes} to {advice.Wait.MostMinutes} min, measure again, and ask again");
        output.WriteLine($"  in all about {DoseMass.Of(advice.Grams, units)}, which may be from {DoseMass.Of(advice.LowGrams, units)} to {DoseMass.Of(advice.HighGrams, units)}");
        WriteList("This rests on:", advice.Assumptions, output);
        WriteList("Mind:", advice.Cautions, output);
    }

    /// <summary>Writes sentences as a list.</summary>
    public static void WriteList(string title, IEnumerable<string> sentences, TextWriter output)
    {
        output.WriteLine();
        output.WriteLine(title);
        foreach (var sentence in sentences)
            output.WriteLine($"  - {sentence}");
    }
}
