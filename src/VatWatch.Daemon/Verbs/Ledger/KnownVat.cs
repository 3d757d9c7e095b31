using VatWatch.Daemon.Wiring;
using VatWatch.Ledger;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Ledger;

/// <summary>A configured vat and its store, for verbs that tell what is in it. The daemon may be running.</summary>
internal sealed record KnownVat(VatDefinition Vat, string Folder, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static KnownVat? Find(string wanted, string? path, string? data, VerbConsole console, out int code)
    {
        code = ExitCode.BadConfiguration;
        if (DaemonConfiguration.Load(path, console.Error) is not { } configuration)
        {
            return null;
        }

        if (configuration.Watch.Vats.FirstOrDefault(one => one.Definition.Id.Value == wanted)?.Definition is not { } vat)
        {
            var known = string.Join(", ", configuration.Watch.Vats.Select(one => $"'{one.Definition.Id}'"));
            code = console.Fail(ExitCode.WrongUsage, $"--vat is '{wanted}'; wanted one of {known}.");
            return null;
        }

        return new(vat, data ?? configuration.Watch.DataFolder, configuration.Watch.Units, configuration.Watch.Zone);
    }

    /// <summary>Reads from the store and gives the exit code; a vat without a store has an empty log book.</summary>
    public int Read(VerbConsole console, Func<LedgerFacts, StoreReader?, int> act)
    {
        try
        {
            if (!StoreReader.Exists(Folder))
            {
                return act(LedgerFacts.Empty(Vat, Units), null);
            }

            using var reader = StoreReader.OpenFolder(Folder);
            return act(StoredLedger.Read(reader, Vat, Units), reader);
        }
        catch (StoreUnavailableException e)
        {
            return console.Fail(ExitCode.Failure, e.Message);
        }
    }
}
