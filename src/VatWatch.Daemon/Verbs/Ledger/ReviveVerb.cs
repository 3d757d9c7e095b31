using System.CommandLine;
using System.Text.Json;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Ledger;

/// <summary><c>vatwatch revive</c>: why a vat dyes weakly, what would tell, and what to do.</summary>
internal static class ReviveVerb
{
    public static Command Create(VerbConsole console) => LedgerCommand.Create(
        "revive",
        "Say why a vat dyes weakly, what would tell, and what to do, step by step.",
        (facts, reader) => StoredWeakVat.Read(reader, facts, TimeProvider.System.GetUtcNow()),
        (found, vat, json) => Write(found, vat, json, console),
        console);

    private static int Write(KnownVat found, WeakVat vat, bool json, VerbConsole console)
    {
        var revival = Revival.Of(vat);
        if (revival.Refused is { } refused)
        {
            return AdviceWriter.Refuse(refused, json, console);
        }

        var cautions = VatCautions.At(vat.TemperatureC ?? found.Vat.Temperature.HighC).ToList();
        if (json)
        {
            AdviceWriter.WriteJson(console.Out, writer => Write(writer, revival, cautions));
            return ExitCode.Success;
        }

        console.Out.WriteLine($"{found.Vat.Name}: the likely cause is {revival.Causes[0].Cause.Name()}.");
        foreach (var (cause, share) in revival.Causes)
        {
            console.Out.WriteLine($"  {100 * share,3:0} %  {cause.Name()}");
        }

        AdviceWriter.WriteList("What speaks for it:", revival.Seen.DefaultIfEmpty("nothing was measured or written lately; these are the usual shares"), console.Out);
        if (revival.Ask is { } ask)
        {
            AdviceWriter.WriteList("What would tell most, written into the log book:", [ask], console.Out);
        }

        AdviceWriter.WriteList("What to do, in this order:", revival.Steps, console.Out);
        AdviceWriter.WriteList("Mind:", cautions, console.Out);
        return ExitCode.Success;
    }

    private static void Write(Utf8JsonWriter writer, Revival revival, IReadOnlyList<string> cautions)
    {
        AdviceWriter.WriteObjects(writer, "causes", revival.Causes, one =>
        {
            writer.WriteString("cause", one.Cause.Word());
            writer.WriteNumber("share", Math.Round(one.Share, 3));
        });
        AdviceWriter.WriteSentences(writer, "seen", revival.Seen);
        writer.WriteString("ask", revival.Ask);
        AdviceWriter.WriteSentences(writer, "steps", revival.Steps);
        AdviceWriter.WriteSentences(writer, "cautions", cautions);
    }
}
