using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Ledger;

/// <summary>A verb that works something out of a vat's log book and writes it.</summary>
internal static class LedgerCommand
{
    /// <summary>Makes it; <paramref name="work"/> is given no store where there is none, and then an empty log book.</summary>
    public static Command Create<T>(string name, string description, Func<LedgerFacts, StoreReader?, T> work, Func<KnownVat, T, bool, int> write, VerbConsole console)
    {
        var vat = new Option<string>("--vat") { Description = "The vat.", HelpName = "ID", Required = true };
        var store = new ConfiguredStoreOptions(console);
        var json = CommonOptions.Json();
        var command = new Command(name, description) { vat, store, json };
        command.SetAction(parsed =>
        {
            var found = KnownVat.Find(parsed.GetValue(vat)!, store.Of(parsed));
            return write(found, found.Read(reader => work(Facts(found, reader), reader)), parsed.GetValue(json));
        });
        return command;
    }

    /// <summary>The log book of a vat; an empty one without a store.</summary>
    public static LedgerFacts Facts(KnownVat found, StoreReader? reader) =>
        reader is null ? LedgerFacts.Empty(found.Vat, found.Units) : StoredLedger.Read(reader, found.Vat, found.Units);
}
