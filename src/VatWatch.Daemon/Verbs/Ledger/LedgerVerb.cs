using System.CommandLine;
using System.Text.Json;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;

namespace VatWatch.Daemon.Verbs.Ledger;

/// <summary><c>vatwatch ledger</c>: what is in a vat, by its log book.</summary>
internal static class LedgerVerb
{
    public static Command Create(VerbConsole console) => LedgerCommand.Create(
        "ledger",
        "Say what is in a vat, by its log book: liquor, indigo, alkalinity, reducing agent.",
        (facts, _) => VatLedger.At(facts, TimeProvider.System.GetUtcNow()),
        (found, balance, json) => Write(found, balance, json, console),
        console);

    private static int Write(KnownVat found, VatBalance balance, bool json, VerbConsole console)
    {
        if (json)
        {
            AdviceWriter.WriteJson(console.Out, writer => balance.Lines.ToList().ForEach(line => Write(writer, line.Name, line.Holding)));
            return ExitCode.Success;
        }

        console.Out.WriteLine($"{found.Vat.Name}, by its log book on {TimeZoneInfo.ConvertTime(balance.At, found.Zone):d MMM yyyy HH:mm}. Ranges hold about 80 %.");
        foreach (var (name, holding) in balance.Lines)
        {
            console.Out.WriteLine();
            console.Out.WriteLine($"  {(name == "reducer" ? "reducing agent" : name),-15} {holding.In(holding.Value, found.Units)}  ({holding.In(holding.Low, found.Units)} to {holding.In(holding.High, found.Units)})");
            foreach (var sentence in holding.RestsOn)
            {
                console.Out.WriteLine($"    - {sentence}");
            }
        }

        return ExitCode.Success;
    }

    private static void Write(Utf8JsonWriter writer, string name, Holding holding)
    {
        writer.WriteStartObject(name);
        writer.WriteNumber("low", Math.Round(holding.Low, 2));
        writer.WriteNumber("value", Math.Round(holding.Value, 2));
        writer.WriteNumber("high", Math.Round(holding.High, 2));
        writer.WriteString("unit", holding.Unit);
        AdviceWriter.WriteSentences(writer, "restsOn", holding.RestsOn);
        writer.WriteEndObject();
    }
}
