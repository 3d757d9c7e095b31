namespace VatWatch.Store.Archive;

/// <summary>Reads the archived part of a stretch of time. Not thread safe.</summary>
internal sealed class ArchiveReader(string folder, SqlSession sql)
{
    private Dictionary<(string, string, string), long>? _probes;

    /// <summary>Folder of the files within a data folder.</summary>
    public static string FolderOf(string dataFolder) => Path.Combine(dataFolder, "archive");

    /// <summary>The file of a month.</summary>
    public static string FileOf(string dataFolder, ArchiveMonth month) => Path.Combine(FolderOf(dataFolder), month.FileName);

    /// <summary>
    /// Archived readings of one vat, or of all, in order of their keys; one sequence a vat. Which months take part is settled now, the files
    /// are read when they are asked for.
    /// </summary>
    public IReadOnlyList<IEnumerable<StoredMeasurement>> Sources(VatId? vat, long from, long to) =>
        [.. ArchiveTable.Between(sql, vat, from, to).GroupBy(one => one.Month.Vat).Select(months => months.SelectMany(month => Read(month, from, to)))];

    private IEnumerable<StoredMeasurement> Read(ArchivedMonth archived, long from, long to)
    {
        using var file = ArchiveFile.Open(FileOf(folder, archived.Month), archived.Month);
        foreach (var row in file.Read(from, Math.Min(to, archived.RemovedTo), (probe, measures) => ProbeRow(archived.Month.Vat, probe, measures)))
        {
            yield return row;
        }
    }

    private long ProbeRow(VatId vat, ProbeId probe, Quantity measures)
    {
        _probes ??= sql.Query(
            "SELECT id, vat, probe, measures FROM probe", row => (Id: row.GetInt64(0), Key: (row.GetString(1), row.GetString(2), row.GetString(3))))
            .ToDictionary(one => one.Key, one => one.Id);
        return _probes.GetValueOrDefault((vat.Value, probe.Value, measures.Word()));
    }
}
