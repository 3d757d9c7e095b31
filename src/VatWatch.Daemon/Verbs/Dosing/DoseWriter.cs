using System.Text.Json;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary>Writes a dose for a person, in grams and ounces, or for other programs.</summary>
internal static class DoseWriter
{
    /// <summary>Writes the answer, for a person with their unit first, and gives the exit code: 0 for advice, 1 for a refusal.</summary>
    public static int Write(DoseAnswer answer, DisplayUnits units, bool json, VerbConsole console)
    {
        if (answer.IsRefused)
        {
            return AdviceWriter.Refuse(answer.Refusal, json, console);
        }

        if (json)
        {
            AdviceWriter.WriteJson(console.Out, writer => WriteAdvice(writer, answer.Advice));
            return ExitCode.Success;
        }

        WriteText(answer.Advice, units, console.Out);
        return ExitCode.Success;
    }

    /// <summary>Writes every figure that could not be read and gives the exit code; null if there is none.</summary>
    public static int? Complain(DoseFigures figures, VerbConsole console)
    {
        foreach (var fault in figures.Faults)
        {
            console.Fail(ExitCode.WrongUsage, fault);
        }

        return figures.Faults.Count > 0 ? ExitCode.WrongUsage : null;
    }

    private static void WriteAdvice(Utf8JsonWriter writer, DoseAdvice advice)
    {
        writer.WriteNumber("grams", Math.Round(advice.Grams, 2));
        writer.WriteNumber("ounces", Math.Round(advice.Grams / DisplayUnits.GramsPerOunce, 3));
        writer.WriteNumber("lowGrams", Math.Round(advice.LowGrams, 2));
        writer.WriteNumber("highGrams", Math.Round(advice.HighGrams, 2));
        writer.WriteNumber("firstPortionGrams", Math.Round(advice.FirstPortionGrams, 2));
        if (advice.TheoryGrams is { } theory)
        {
            writer.WriteNumber("theoryGrams", Math.Round(theory, 2));
            writer.WriteNumber("pastDoses", advice.PastDoses);
        }

        writer.WriteNumber("waitMinutes", advice.Wait.Minutes);
        AdviceWriter.WriteSentences(writer, "assumptions", advice.Assumptions);
        AdviceWriter.WriteSentences(writer, "cautions", advice.Cautions);
    }

    private static void WriteText(DoseAdvice advice, DisplayUnits units, TextWriter output)
    {
        output.WriteLine($"WEIGH OUT {DoseMass.Of(advice.FirstPortionGrams, units)} of {advice.Substance}");
        output.WriteLine($"  then wait {advice.Wait.LeastMinutes} to {advice.Wait.MostMinutes} min, measure again, and ask again");
        output.WriteLine($"  in all about {DoseMass.Of(advice.Grams, units)}, which may be from {DoseMass.Of(advice.LowGrams, units)} to {DoseMass.Of(advice.HighGrams, units)}");
        AdviceWriter.WriteList("This rests on:", advice.Assumptions, output);
        AdviceWriter.WriteList("Mind:", advice.Cautions, output);
    }
}
