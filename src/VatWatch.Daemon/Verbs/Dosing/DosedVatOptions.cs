using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Ledger;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary>An option that asks for the vat that a dose is for, and those that say where it is kept.</summary>
internal sealed class DosedVatOptions(VerbConsole console)
{
    private readonly Option<string?> _vat = new("--vat") { Description = "The vat: what is not said comes from its probes, its log book and its own past doses.", HelpName = "ID" };
    private readonly ConfiguredStoreOptions _store = new(console);

    public void AddTo(Command command)
    {
        command.Options.Add(_vat);
        _store.AddTo(command);
    }

    /// <summary>Answers a question that may be for a vat, and writes the answer.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="answer">Answers; given no vat where none was named.</param>
    /// <param name="spoken">The units of who asks without a vat.</param>
    /// <param name="json">Whether a program reads it.</param>
    public int Answer(ParseResult parsed, Func<DosedVat?, DoseFigures, DoseAnswer> answer, string? spoken, bool json)
    {
        DosedVat? vat = null;
        if (parsed.GetValue(_vat) is { } id)
        {
            var found = KnownVat.Find(id, _store.Of(parsed));
            vat = found.Read(reader => DosedVat.Read(reader, LedgerCommand.Facts(found, reader), TimeProvider.System.GetUtcNow()));
        }

        var figures = new DoseFigures();
        var told = answer(vat, figures);
        return DoseWriter.Complain(figures, console) ?? DoseWriter.Write(told, vat?.Now.Facts.Units ?? DoseOptions.UnitsOf(spoken ?? ""), json, console);
    }
}
