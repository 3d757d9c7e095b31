using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Ledger;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary>An option that asks for the vat that a dose is for, and those that say where it is kept.</summary>
internal sealed record DosedVatOptions(Option<string?> Vat, Option<string?> Config, Option<string?> Data)
{
    public static DosedVatOptions Create() => new(
        new("--vat") { Description = "The vat: what is not said comes from its probes, its log book and its own past doses.", HelpName = "ID" }, CommonOptions.Config(), CommonOptions.Data());

    public void AddTo(Command command)
    {
        command.Options.Add(Vat);
        command.Options.Add(Config);
        command.Options.Add(Data);
    }

    /// <summary>Answers a question that may be for a vat, and writes the answer.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="answer">Answers; given no vat where none was named.</param>
    /// <param name="spoken">The units of who asks without a vat.</param>
    /// <param name="json">Whether a program reads it.</param>
    /// <param name="console">Where it is written.</param>
    public int Answer(ParseResult parsed, Func<DosedVat?, DoseFigures, DoseAnswer> answer, string? spoken, bool json, VerbConsole console)
    {
        DosedVat? vat = null;
        if (parsed.GetValue(Vat) is { } id)
        {
            var found = KnownVat.Find(id, parsed.GetValue(Config), parsed.GetValue(Data), console);
            vat = found.Read(reader => DosedVat.Read(reader, LedgerCommand.Facts(found, reader), TimeProvider.System.GetUtcNow()));
        }

        var figures = new DoseFigures();
        var told = answer(vat, figures);
        return DoseWriter.Complain(figures, console) ?? DoseWriter.Write(told, vat?.Now.Facts.Units ?? DoseOptions.UnitsOf(spoken ?? ""), json, console);
    }
}
