using System.CommandLine;
using System.Text.Json;
using VatWatch.Daemon.Verbs.Plan;
using VatWatch.Ledger;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Ledger;

/// <summary><c>vatwatch revive</c>: why a vat dyes weakly, what would tell, and what to do.</summary>
internal static class ReviveVerb
{
    public static Command Create(VerbConsole console) => Create(console, TimeProvider.System);

    public static Command Create(VerbConsole console, TimeProvider time)
    {
        var vat = new Option<string>("--vat") { Description = "The vat.", HelpName = "ID", Required = true };
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var json = CommonOptions.Json();
        var command = new Command("revive", "Say why a vat dyes weakly, what would tell, and what to do, step by step.") { vat, config, data, json };
        command.SetAction(parsed => KnownVat.Find(parsed.GetValue(vat)!, parsed.GetValue(config), parsed.GetValue(data), console, out var code) is { } found
            ? found.Read(console, (facts, reader) => Write(found, StoredWeakVat.Read(reader, facts, time.GetUtcNow()), parsed.GetValue(json), console))
            : code);
        return command;
    }

    private static int Write(KnownVat found, WeakVat vat, bool json, VerbConsole console)
    {
        var revival = Revival.Of(vat);
        if (revival.Refused is { } refused)
        {
            return PlanWriter.Refuse(refused, json, console);
        }

        var cautions = VatCautions.At(vat.TemperatureC ?? found.Vat.Temperature.HighC).ToList();
        if (json)
        {
            PlanWriter.WriteJson(console.Out, writer => Write(writer, revival, cautions));
            return ExitCode.Success;
        }

        console.Out.WriteLine($"{found.Vat.Name}: the likely cause is {revival.Causes[0].Cause.Name()}.");
        foreach (var (cause, share) in revival.Causes)
        {
            console.Out.WriteLine($"  {100 * share,3:0} %  {cause.Name()}");
        }

        PlanWriter.WriteList("What speaks for it:", revival.Seen.DefaultIfEmpty("nothing was measured or written lately; these are the usual shares"), console.Out);
        if (revival.Ask is { } ask)
        {
            PlanWriter.WriteList("What would tell most, written into the log book:", [ask], console.Out);
        }

        PlanWriter.WriteList("What to do, in this order:", revival.Steps, console.Out);
        PlanWriter.WriteList("Mind:", cautions, console.Out);
        return ExitCode.Success;
    }

    private static void Write(Utf8JsonWriter writer, Revival revival, IReadOnlyList<string> cautions)
    {
        writer.WriteStartArray("causes");
        foreach (var (cause, share) in revival.Causes)
        {
            writer.WriteStartObject();
            writer.WriteString("cause", cause.Word());
            writer.WriteNumber("share", Math.Round(share, 3));
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        PlanWriter.WriteSentences(writer, "seen", revival.Seen);
        writer.WriteString("ask", revival.Ask);
        PlanWriter.WriteSentences(writer, "steps", revival.Steps);
        PlanWriter.WriteSentences(writer, "cautions", cautions);
    }
}
