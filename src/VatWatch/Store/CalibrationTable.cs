using VatWatch.Store.Sql;

namespace VatWatch.Store;

/// <summary>Keeps every calibration ever made; none is changed or removed, because measurements name the one they were made with.</summary>
public static class CalibrationTable
{
    /// <summary>Adds one; its row.</summary>
    public static long Append(StoreTransaction transaction, ProbeId probe, DateTimeOffset utc, string json)
    {
        transaction.Sql.Execute(
            "INSERT INTO calibration (probe, utc, json) VALUES ($probe, $utc, $json)", ("$probe", probe.Value), ("$utc", StoredTime.Of(utc)), ("$json", json));
        return transaction.Sql.Whole("SELECT last_insert_rowid()")!.Value;
    }

    /// <summary>Every one of every probe, in the order they were added.</summary>
    public static IReadOnlyList<StoredCalibration> All(StoreReader reader) => reader.Guard(() => reader.Sql.Query(
        "SELECT id, probe, utc, json FROM calibration ORDER BY id", Read));

    /// <summary>Row of the one added last; 0 when there is none.</summary>
    public static long NewestRow(StoreReader reader) => reader.Guard(() => reader.Sql.Whole("SELECT max(id) FROM calibration")) ?? 0;

    /// <summary>The one added last for each probe: the one in use.</summary>
    public static IReadOnlyList<StoredCalibration> Newest(StoreReader reader) => reader.Guard(() => reader.Sql.Query(
        "SELECT id, probe, utc, json FROM calibration WHERE id IN (SELECT max(id) FROM calibration GROUP BY probe) ORDER BY probe", Read));

    /// <summary>Every one of a probe, in the order they were added.</summary>
    public static IReadOnlyList<StoredCalibration> Of(StoreReader reader, ProbeId probe) => reader.Guard(() => reader.Sql.Query(
        "SELECT id, probe, utc, json FROM calibration WHERE probe = $probe ORDER BY id", Read, ("$probe", probe.Value)));

    private static StoredCalibration Read(StoreRow row) =>
        new(row.GetInt64("id"), new ProbeId(row.GetString("probe")), row.Moment("utc"), row.GetString("json"));
}

/// <summary>A calibration as kept: what its capability wrote, with its row and date.</summary>
/// <param name="Id">Row; measurements name it.</param>
/// <param name="Utc">When it was made.</param>
/// <param name="Json">What it holds.</param>
public sealed record StoredCalibration(long Id, ProbeId Probe, DateTimeOffset Utc, string Json);
