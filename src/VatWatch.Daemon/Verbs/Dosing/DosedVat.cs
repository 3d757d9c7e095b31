using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Ledger;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary>The vat that a dose is for, as its log book and its probes know it.</summary>
/// <param name="Now">What its probes show.</param>
/// <param name="Balance">Its ledger.</param>
/// <param name="Units">The units of its site.</param>
internal sealed record DosedVat(WeakVat Now, VatBalance Balance, DisplayUnits Units)
{
    /// <summary>An option that asks for a vat, and those that say where it is kept.</summary>
    public sealed record Options(Option<string?> Vat, Option<string?> Config, Option<string?> Data)
    {
        public static Options Create() => new(
            new("--vat") { Description = "The vat: what is not said comes from its probes, its log book and its own past doses.", HelpName = "ID" }, CommonOptions.Config(), CommonOptions.Data());

        public void AddTo(Command command)
        {
            command.Options.Add(Vat);
            command.Options.Add(Config);
            command.Options.Add(Data);
        }
    }

    /// <summary>Answers a question that may be for a vat, and writes the answer.</summary>
    /// <param name="options">Which vat.</param>
    /// <param name="parsed">The command line.</param>
    /// <param name="answer">Answers; given no vat where none was named.</param>
    /// <param name="spoken">The units of who asks without a vat.</param>
    /// <param name="json">Whether a program reads it.</param>
    /// <param name="time">Tells now.</param>
    /// <param name="console">Where it is written.</param>
    public static int Answer(Options options, ParseResult parsed, Func<DosedVat?, DoseFigures, DoseAnswer> answer, string? spoken, bool json, TimeProvider time, VerbConsole console)
    {
        DosedVat? vat = null;
        if (parsed.GetValue(options.Vat) is { } id)
        {
            if (KnownVat.Find(id, parsed.GetValue(options.Config), parsed.GetValue(options.Data), console, out var code) is not { } found
                || found.Read(reader => Of(StoredWeakVat.Read(reader, LedgerCommand.Facts(found, reader), time.GetUtcNow())), console, out code) is not { } read)
            {
                return code;
            }

            vat = read;
        }

        var figures = new DoseFigures();
        var told = answer(vat, figures);
        return DoseWriter.Complain(figures, console) ?? DoseWriter.Write(told, vat?.Units ?? DoseOptions.UnitsOf(spoken ?? ""), json, console);
    }

    private static DosedVat Of(WeakVat vat) => new(vat, VatLedger.At(vat.Facts, vat.Now), vat.Facts.Units);
}
