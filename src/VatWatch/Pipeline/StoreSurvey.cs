using VatWatch.Alarms.Journal;
using VatWatch.Calibration;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Stored;
using VatWatch.Measurements;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Plans;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>Reads a whole store the way the daemon does, row by row, so that what no check of the file itself can know is found: words that mean nothing.</summary>
public static class StoreSurvey
{
    /// <summary>One sentence a fault; none when every row can be read and nothing contradicts anything. Takes a while on a large store.</summary>
    /// <exception cref="StoreUnavailableException">The file cannot be read at all; a sentence.</exception>
    public static IReadOnlyList<string> Faults(StoreReader reader)
    {
        var faults = reader.Verify();
        if (faults.Any(fault => fault.StartsWith("SQLite found damage", StringComparison.Ordinal)))
        {
            return faults;
        }

        var impossible = reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue)
            .Where(row => row.Measurement.Value is { } value && !MeasurableRange.Of(row.Measurement.Quantity).Holds(value))
            .GroupBy(row => (row.Measurement.Vat, row.Measurement.Probe))
            .Select(probe => $"{DisplayUnits.Count(probe.Count(), "value")} of probe {probe.Key.Probe} of {probe.Key.Vat} cannot have been measured.")
            .ToList();
        _ = AlarmJournal.Current(reader);
        for (var (last, page) = (0L, AlarmJournal.After(reader, 0, PageRows)); page.Count > 0; page = AlarmJournal.After(reader, last, PageRows))
        {
            last = page[^1].Id;
        }

        _ = SessionTable.Newest(reader, null, int.MaxValue);
        _ = EntryTable.All(reader);
        _ = OutboxTable.All(reader);
        _ = EscalationTable.All(reader);
        _ = LearnedHeatTable.All(reader);
        PlanTable.ReadAll(reader);
        for (var (last, page) = (0L, ConditionTable.After(reader, 0, PageRows)); page.Count > 0; page = ConditionTable.After(reader, last, PageRows))
        {
            last = page[^1].Id;
        }

        var calibrations = CalibrationTable.All(reader)
            .Where(stored => !CalibrationDocument.TryRead(stored.Json, out _, out _))
            .Select(stored => $"Calibration {stored.Id} of probe {stored.Probe} cannot be read and is passed over.");
        return [.. faults, .. impossible, .. calibrations, .. reader.Unreadable];
    }

    private const int PageRows = 10_000;
}
