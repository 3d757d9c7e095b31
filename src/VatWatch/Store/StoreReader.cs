using Microsoft.Data.Sqlite;
using VatWatch.Measurements;
using VatWatch.Store.Disk;
using VatWatch.Store.Series;
using VatWatch.Store.Sql;

namespace VatWatch.Store;

/// <summary>
/// A short-lived connection for reading, beside a daemon that writes or without one. Each call sees what was committed when it began.
/// Not thread safe. Every member throws <see cref="StoreUnavailableException"/>, in a sentence, when the file cannot be read.
/// </summary>
public sealed class StoreReader : IDisposable
{
    private readonly StoreFile _file;
    private readonly MeasurementContextCache _rows;

    internal StoreReader(StoreFile file)
    {
        _file = file;
        Sql = file.OpenForReading();
        _rows = new(Sql);
    }

    /// <summary>The connection; capabilities read their own tables through it.</summary>
    internal SqlSession Sql { get; }

    /// <summary>Opens the store of a folder, whether or not a daemon is using it.</summary>
    public static StoreReader OpenFolder(string folder) => new(new StoreFile(folder));

    /// <summary>Opens a copy of a store under whatever name it has.</summary>
    public static StoreReader OpenFile(string file) => new(new StoreFile(Path.GetDirectoryName(Path.GetFullPath(file))!, Path.GetFileName(file)));

    /// <summary>Whether a folder has a store at all.</summary>
    public static bool Exists(string folder) => System.IO.File.Exists(new StoreFile(folder).File);

    /// <summary>Newest start of the daemon; 0 when it never ran.</summary>
    public long NewestRun => Guard(() => Sql.Whole("SELECT max(id) FROM run")) ?? 0;

    /// <summary>
    /// Readings of a vat from <paramref name="from"/> up to, not including, <paramref name="to"/>, in order of their UTC label, and of
    /// arrival where labels are equal; those whose value no probe can give are left out. Streamed; the reader must stay open.
    /// </summary>
    public IEnumerable<Measurement> Measurements(VatId vat, DateTimeOffset from, DateTimeOffset to) => Rows(vat, null, from, to).Select(row => row.Measurement)
        .Where(measurement => measurement.Value is not { } value || MeasurableRange.Of(measurement.Quantity).Holds(value));

    /// <summary>Readings of every vat, with the run each was taken in, in the same order.</summary>
    public IEnumerable<StoredMeasurement> Rows(DateTimeOffset from, DateTimeOffset to) => Rows(null, null, from, to);

    /// <summary>The reading with the newest label of each probe, oldest first.</summary>
    public IReadOnlyList<Measurement> Latest() => Guard(() =>
    {
        var wanted = Sql.Query("SELECT id FROM probe", row => row.GetInt64(0)).ToHashSet();
        var found = new List<StoredMeasurement>();
        var recent = Stream($"SELECT {MeasurementContextCache.Columns} FROM measurement ORDER BY id DESC LIMIT {RecentRows}");
        found.AddRange(recent.Where(row => wanted.Remove(row.ProbeRow)));
        if (wanted.Count > 0)
        {
            found.AddRange(Buckets(descending: true).Where(bucket => wanted.Contains(bucket.Probe)).Select(LastOf).OfType<StoredMeasurement>().Where(row => wanted.Remove(row.ProbeRow)));
        }

        return (IReadOnlyList<Measurement>)[.. found.OrderBy(row => row.Key).Select(row => row.Measurement)];
    });

    /// <summary>First and last label among the readings of a vat; null when it has none.</summary>
    public (DateTimeOffset First, DateTimeOffset Last)? Span(VatId vat) => Guard<(DateTimeOffset, DateTimeOffset)?>(() =>
    {
        var probes = Sql.Query("SELECT id FROM probe WHERE vat = $vat", row => row.GetInt64(0), ("$vat", vat.Value)).ToHashSet();
        var first = Buckets(descending: false).Where(bucket => probes.Contains(bucket.Probe)).Select(FirstOf).FirstOrDefault(row => row is not null);
        var last = Buckets(descending: true).Where(bucket => probes.Contains(bucket.Probe)).Select(LastOf).FirstOrDefault(row => row is not null);
        if (first is not { } earliest || last is not { } latest)
        {
            return null;
        }

        // Probes of one bucket are in order of their row, not of time.
        var earlier = Measurements(vat, earliest.Measurement.Stamp.Utc.AddMinutes(-RollupTable.QuarterHour.Minutes), earliest.Measurement.Stamp.Utc).FirstOrDefault();
        var later = Measurements(vat, latest.Measurement.Stamp.Utc, latest.Measurement.Stamp.Utc.AddMinutes(RollupTable.QuarterHour.Minutes)).LastOrDefault();
        return ((earlier ?? earliest.Measurement).Stamp.Utc, (later ?? latest.Measurement).Stamp.Utc);
    });

    /// <summary>Newest label of all readings in the database; null when there are none.</summary>
    public DateTimeOffset? LastUtc() =>
        Guard(() => Sql.Whole("SELECT max(id) FROM measurement WHERE id >= $least", ("$least", MeasurementKey.First(MeasurementKey.SmallestMicros)))) is { } key ? MeasurementKey.Utc(key) : null;

    /// <summary>
    /// Up to <paramref name="max"/> readings that were committed after <paramref name="cursor"/>, each exactly once, also those whose label is
    /// older because the clock was set back. For copying the store elsewhere.
    /// </summary>
    public (IReadOnlyList<Measurement> Measurements, StoreCursor Next) After(StoreCursor cursor, int max)
    {
        var (rows, next) = RowsAfter(cursor, max);
        return ([.. rows.Select(row => row.Measurement)], next);
    }

    /// <summary>As <see cref="After"/>, with each reading's place in the store.</summary>
    public (IReadOnlyList<StoredMeasurement> Rows, StoreCursor Next) RowsAfter(StoreCursor cursor, int max) => Guard(() => StoreCursor.Read(this, cursor, max));

    /// <summary>The cursor before the first reading whose label is at or after <paramref name="from"/>; all before it count as seen.</summary>
    public StoreCursor CursorAt(DateTimeOffset from) => Guard(() => new StoreCursor(MeasurementKey.AtOrAfter(from) - 1, Sql.Whole("SELECT max(seq) FROM late") ?? 0));

    /// <summary>How many readings <see cref="After"/> would still give; counting ends at <paramref name="most"/>.</summary>
    public long CountAfter(StoreCursor cursor, int most) => Guard(() =>
        Sql.Whole("SELECT count(*) FROM (SELECT 1 FROM measurement WHERE id > $key LIMIT $most)", ("$key", cursor.Key), ("$most", (long)most))!.Value
        + Sql.Whole("SELECT count(*) FROM (SELECT 1 FROM late WHERE seq > $seq AND measurement <= $key LIMIT $most)", ("$seq", cursor.Late), ("$key", cursor.Key), ("$most", (long)most))!.Value);

    /// <summary>
    /// Buckets of one probe that begin at or after <paramref name="from"/> and before <paramref name="to"/>: of a quarter of an hour when
    /// <paramref name="quarters"/>, otherwise of a minute. Empty buckets are absent.
    /// </summary>
    public IReadOnlyList<Rollup> Rollups(VatId vat, ProbeId probe, DateTimeOffset from, DateTimeOffset to, bool quarters) => Guard(() =>
    {
        var table = quarters ? RollupTable.QuarterHour : RollupTable.OneMinute;
        return (IReadOnlyList<Rollup>)[.. table.Read(Sql, ProbeRows(vat, probe).Keys, from, to).Select(row => row.Sum.At(RollupTable.StartOf(row.Id)))];
    });

    /// <summary>
    /// The values of one probe from <paramref name="from"/> up to, not including, <paramref name="to"/>, summed up into about
    /// <paramref name="columns"/> columns for a chart; columns without a value are absent.
    /// </summary>
    /// <param name="from">Start, UTC.</param>
    /// <param name="to">End, UTC.</param>
    /// <param name="columns">At most this many and one more, 1 or more; wide ones are rounded up to whole minutes or quarter hours.</param>
    /// <param name="gap">The trace is broken where there is no value for longer than this; three sample periods is a good choice.</param>
    public IReadOnlyList<MeasurementColumn> Columns(VatId vat, ProbeId probe, DateTimeOffset from, DateTimeOffset to, int columns, TimeSpan gap) =>
        Guard(() => Columns(vat, ProbeRows(vat, probe), from, to, columns, _ => gap)).GetValueOrDefault(probe, []);

    /// <summary>The same of every probe of a vat in one pass over the store, each with its gap; probes without a value are absent.</summary>
    public IReadOnlyDictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Columns(VatId vat, DateTimeOffset from, DateTimeOffset to, int columns, Func<ProbeId, TimeSpan> gap) =>
        Guard(() => Columns(vat, ProbeRows(vat, null), from, to, columns, gap));

    /// <summary>Rows that this reader passed over because they cannot be read: one sentence each.</summary>
    public IReadOnlyList<string> Unreadable => _file.Unreadable.Sentences;

    /// <summary>Reads the whole store and looks for damage and contradictions: one sentence each, none when it is sound.</summary>
    public IReadOnlyList<string> Verify() => Guard(() => StoreCheck.Run(Sql));

    /// <summary>
    /// Writes a consistent, compact copy of everything committed, while the daemon goes on. The copy appears under its name only when it is
    /// complete and has passed a check.
    /// </summary>
    /// <param name="file">The copy.</param>
    /// <param name="replace">Whether a file of that name may be replaced.</param>
    /// <exception cref="StoreUnavailableException">The file exists, cannot be written, or the copy is not sound.</exception>
    public void Backup(string file, bool replace = false) => StoreBackup.Write(Sql, _file.Folder, file, replace);

    /// <summary>Readings in the database.</summary>
    public long Count() => Guard(() => Sql.Whole("SELECT count(*) FROM measurement")!.Value);

    public void Dispose() => Sql.Dispose();

    internal IEnumerable<StoredMeasurement> Stream(string sql, params (string Name, object? Value)[] values)
    {
        using var rows = Sql.Stream(sql, _rows.Read, values).GetEnumerator();
        while (Guard(rows.MoveNext))
        {
            yield return rows.Current;
        }
    }

    /// <summary>Turns what SQLite and a damaged row throw into a sentence.</summary>
    internal T Guard<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (SqliteException caught)
        {
            throw new StoreUnavailableException($"Store in '{_file.Folder}': tried to read vatwatch.db; {SqliteFault.Say(caught)}.", caught);
        }
        catch (InvalidDataException caught)
        {
            throw new StoreUnavailableException($"Store in '{_file.Folder}': tried to read it; {caught.Message.TrimEnd('.')}.", caught);
        }
    }

    private IEnumerable<StoredMeasurement> Rows(VatId? vat, long? probe, DateTimeOffset from, DateTimeOffset to)
    {
        var (low, high) = (MeasurementKey.AtOrAfter(from), MeasurementKey.AtOrAfter(to));
        var correction = Guard(() => new TimestampCorrection(Sql));
        var stored = Stream(
            $"""
            SELECT {MeasurementContextCache.Columns} FROM measurement WHERE id >= $from AND id < $to AND ($all OR circumstance IN (
                SELECT c.id FROM circumstance c JOIN probe p ON p.id = c.probe WHERE ($vat IS NULL OR p.vat = $vat) AND ($probe IS NULL OR p.id = $probe)))
            {correction.Excluded} ORDER BY id
            """,
            ("$from", low),
            ("$to", high),
            ("$all", vat is null && probe is null ? 1L : 0L),
            ("$vat", vat?.Value),
            ("$probe", probe));
        var corrected = Guard(() => correction.Rows(_rows, vat, probe, MeasurementKey.MicrosOf(low), MeasurementKey.MicrosOf(high)));
        foreach (var row in SortedMerge.Of(stored, corrected, row => (row.Measurement.Stamp.Utc, row.Key)))
        {
            yield return row;
        }
    }

    private IReadOnlyDictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Columns(
        VatId vat, Dictionary<long, ProbeId> probes, DateTimeOffset from, DateTimeOffset to, int columns, Func<ProbeId, TimeSpan> gap)
    {
        long? only = probes.Count == 1 ? probes.Keys.Single() : null;
        var reader = new ColumnReader(
            Sql,
            probes,
            (low, high) => Rows(vat, only, MeasurementKey.UtcOfMicros(low), MeasurementKey.UtcOfMicros(high)).Where(row => probes.ContainsKey(row.ProbeRow)).Select(row => row.Measurement),
            (low, high) => new TimestampCorrection(Sql).Rows(_rows, vat, only, low, high).Where(row => probes.ContainsKey(row.ProbeRow)).Select(row => row.Measurement));
        return probes.Count == 0 ? new Dictionary<ProbeId, IReadOnlyList<MeasurementColumn>>() : reader.Read(from, to, columns, gap);
    }

    private Dictionary<long, ProbeId> ProbeRows(VatId vat, ProbeId? probe) => Sql.Query(
        "SELECT id, probe FROM probe WHERE vat = $vat AND ($probe IS NULL OR probe = $probe) ORDER BY id",
        row => (Id: row.GetInt64(0), Probe: new ProbeId(row.GetString(1))),
        ("$vat", vat.Value),
        ("$probe", probe?.Value)).ToDictionary(one => one.Id, one => one.Probe);

    private IEnumerable<(long Probe, DateTimeOffset Start)> Buckets(bool descending) => Sql.Stream(
        $"SELECT id FROM rollup_15 WHERE id >= $from ORDER BY id {(descending ? "DESC" : "")}",
        row => (RollupTable.ProbeOf(row.GetInt64(0)), RollupTable.StartOf(row.GetInt64(0))),
        ("$from", RollupTable.FirstIdFrom(OldestReading() is var oldest && oldest > DateTimeOffset.MinValue.AddDays(1) ? oldest.AddMinutes(-RollupTable.QuarterHour.Minutes) : oldest)));

    /// <summary>No reading that is still kept is older; rollups may be.</summary>
    private DateTimeOffset OldestReading() => Sql.Whole("SELECT min(id) FROM measurement WHERE id >= $least", ("$least", MeasurementKey.First(MeasurementKey.SmallestMicros))) is { } key ? MeasurementKey.Utc(key) : DateTimeOffset.MaxValue;

    private StoredMeasurement? FirstOf((long Probe, DateTimeOffset Start) bucket) => Within(bucket).Cast<StoredMeasurement?>().FirstOrDefault();

    private StoredMeasurement? LastOf((long Probe, DateTimeOffset Start) bucket) => Within(bucket).Cast<StoredMeasurement?>().LastOrDefault();

    private IEnumerable<StoredMeasurement> Within((long Probe, DateTimeOffset Start) bucket) =>
        Rows(bucket.Start, bucket.Start.AddMinutes(RollupTable.QuarterHour.Minutes)).Where(row => row.ProbeRow == bucket.Probe);

    /// <summary>Some minutes of ordinary traffic; older ones are found through the rollups.</summary>
    private const int RecentRows = 2000;
}

/// <summary>A measurement with its place in the store.</summary>
/// <param name="Key">Row id; grows with the label of time.</param>
/// <param name="Run">Start of the daemon it was taken in; monotonic times of different runs must not be compared.</param>
public readonly record struct StoredMeasurement(long Key, long Run, long ProbeRow, Measurement Measurement)
{
    /// <summary>Order of arrival among the readings of its microsecond, 0 to 63. Label and order together are never given twice.</summary>
    public int Order => (int)(Key & (MeasurementKey.PerMicrosecond - 1));
}
