using VatWatch.Alarms;
using VatWatch.Charts;
using VatWatch.Store;
using VatWatch.Vats;

namespace VatWatch.Daemon.Wiring;

/// <summary>Reads from the store what a chart or report of a vat is drawn from.</summary>
internal static class StoredRecord
{
    /// <summary>Measurements and alarms between two moments.</summary>
    public static VatRecord Read(StoreReader reader, VatDefinition vat, DisplayUnits units, DateTimeOffset from, DateTimeOffset to) => new(
        vat, units, from, to, [.. reader.Measurements(vat.Id, from, to)], AlarmJournal.Changes(reader, vat.Id, from, to));
}
