using Microsoft.Extensions.Logging;

namespace VatWatch.Store.Archive;

/// <summary>
/// Moves readings of whole months that are old enough from the database into archive files. One pass at a time; the database's writer is
/// only asked for small transactions, with a pause after each. A pass that is cut off anywhere is taken up by the next.
/// </summary>
/// <param name="folder">The data folder.</param>
/// <param name="store">The store of that folder.</param>
/// <param name="options">When a month is old enough.</param>
/// <param name="io">The clock of the disk.</param>
/// <param name="log">Where what was done is logged.</param>
public sealed class Archiver(string folder, WatchStore store, StoreOptions options, TimeProvider io, ILogger<Archiver> log)
{
    private readonly long _began = io.GetTimestamp();
    private readonly HashSet<string> _told = new(StringComparer.Ordinal);

    /// <summary>Told at every step; tests cut a pass off in it.</summary>
    internal Action<string> Reached { get; init; } = static _ => { };

    /// <summary>Archives every month that is due, and removes the files of months past <see cref="StoreOptions.KeepReadings"/>.</summary>
    /// <param name="now">A trusted label of now.</param>
    /// <param name="cancel">Stops between two steps.</param>
    /// <returns>How many months were finished.</returns>
    /// <exception cref="StoreUnavailableException">The database cannot be read or written now.</exception>
    public async Task<int> RunOnceAsync(DateTimeOffset now, CancellationToken cancel)
    {
        var finished = 0;
        foreach (var month in Adoptable().Concat(Due(now)).Distinct().ToList())
        {
            cancel.ThrowIfCancellationRequested();
            try
            {
                await MoveAsync(month, cancel);
                finished++;
            }
            catch (Exception caught) when (caught is IOException or UnauthorizedAccessException or InvalidDataException)
            {
                if (_told.Add($"{month.FileName} {caught.Message}"))
                {
                    log.NotArchived(folder, month.FileName, caught.Message.TrimEnd('.'));
                }
            }
        }

        await ExpireAsync(now, cancel);
        return finished;
    }

    private async Task MoveAsync(ArchiveMonth month, CancellationToken cancel)
    {
        if (Read(sql => ArchiveTable.Find(sql, month)) is null && !await TryWriteAsync(month, cancel))
        {
            return;
        }

        var path = ArchiveReader.FileOf(folder, month);
        using var file = ArchiveFile.Open(path, month);
        await RemoveAsync(month, file, cancel);
        log.Archived(folder, month.FileName, file.Rows, new FileInfo(path).Length / 1000);
    }

    /// <summary>Makes the file, or takes up a whole one that a kill left unnoted, and notes it; false when there is nothing to make it of.</summary>
    private async Task<bool> TryWriteAsync(ArchiveMonth month, CancellationToken cancel)
    {
        var path = ArchiveReader.FileOf(folder, month);
        if (System.IO.File.Exists(path) && !IsSound(path, month))
        {
            System.IO.File.Move(path, $"{path}-damaged", overwrite: true);
            log.ArchiveSetAside(folder, month.FileName);
            if (!Read(sql => IsDue(sql, month)))
            {
                return false;
            }
        }

        if (!System.IO.File.Exists(path))
        {
            Reached("write");
            using var reader = store.OpenReader();
            await ArchiveWriter.WriteAsync(path, month, reader.Trusted(month.Vat, month.From, month.To), cancel);
        }

        // Also of a file that a kill left unnoted: nothing is removed before its name, and that of its folder, are certain to be there.
        DirectorySync.Flush(ArchiveReader.FolderOf(folder));
        DirectorySync.Flush(folder);
        Reached("note");
        using var file = ArchiveFile.Open(path, month);
        var rows = file.Rows;
        return await store.WriteAsync(transaction => Done(() => ArchiveTable.Add(transaction.Sql, month, rows)), cancel);
    }

    /// <summary>
    /// Takes out of the database what is in the file, in small transactions. Only a row that is the same in every part goes: another that came
    /// to the same place since stays, and is read from there.
    /// </summary>
    private async Task RemoveAsync(ArchiveMonth month, ArchiveFile file, CancellationToken cancel)
    {
        var from = Read(sql => ArchiveTable.Find(sql, month))?.RemovedTo ?? long.MinValue;
        foreach (var batch in file.Read(from, long.MaxValue, static (_, _) => 0).Chunk(RowsAtOnce))
        {
            Reached("remove");
            await store.WriteAsync(transaction => Done(() => RemoveBatch(transaction.Sql, month, batch)), cancel);
            await Task.Delay(Pause, io, cancel);
        }

        Reached("finish");
        await store.WriteAsync(transaction => Done(() => ArchiveTable.Advance(transaction.Sql, month, MeasurementKey.AtOrAfter(month.To), done: true)), cancel);
    }

    private static void RemoveBatch(SqlSession sql, ArchiveMonth month, StoredMeasurement[] batch)
    {
        var (first, last) = (batch[0].Key, batch[^1].Key);
        var archived = batch.ToDictionary(row => row.Key);
        var cache = new MeasurementContextCache(sql);
        var same = sql.Query(
            $"SELECT {MeasurementContextCache.Columns} FROM measurement WHERE id BETWEEN $first AND $last", cache.Read, ("$first", first), ("$last", last))
            .Where(row => archived.TryGetValue(row.Key, out var other) && row.Run == other.Run && row.Measurement == other.Measurement);
        foreach (var row in same)
        {
            sql.Execute("DELETE FROM measurement WHERE id = $id", ("$id", row.Key));
        }

        sql.Execute(
            "DELETE FROM late WHERE measurement BETWEEN $first AND $last AND measurement NOT IN (SELECT id FROM measurement WHERE id BETWEEN $first AND $last)",
            ("$first", first),
            ("$last", last));
        ArchiveTable.Advance(sql, month, last + 1, done: false);
    }

    /// <summary>Months whose readings are in the database and old enough, oldest first.</summary>
    private List<ArchiveMonth> Due(DateTimeOffset now) => Read(sql =>
    {
        var isLarge = Retention.UsedBytes(sql) > options.SizeLimitMegabytes * LargeShareBytes;
        var until = now - (isLarge ? YoungestWhenLarge : options.ArchiveAfter);
        var vats = sql.Query("SELECT DISTINCT vat FROM probe ORDER BY vat", row => new VatId(row.GetString(0)));
        var due = new List<ArchiveMonth>();
        var from = long.MinValue;
        while (sql.Whole("SELECT min(id) FROM measurement WHERE id >= $from", ("$from", from)) is { } oldest)
        {
            var month = ArchiveMonth.Of(default, MeasurementKey.Utc(oldest));
            if (month.To > until)
            {
                break;
            }

            from = MeasurementKey.AtOrAfter(month.To);
            due.AddRange(vats.Select(vat => month with { Vat = vat }).Where(one => IsDue(sql, one)));
        }

        return due;
    });

    private static bool IsDue(SqlSession sql, ArchiveMonth month) => ArchiveTable.Find(sql, month) is { } known
        ? !known.Done
        : sql.Whole(
            $"SELECT m.id FROM measurement m WHERE m.id >= $from AND m.id < $to AND m.circumstance IN ({StoreReader.TrustedOfVat}) LIMIT 1",
            ("$from", MeasurementKey.AtOrAfter(month.From)),
            ("$to", MeasurementKey.AtOrAfter(month.To)),
            ("$vat", month.Vat.Value)) is not null;

    /// <summary>Files that nothing notes: a kill came between, or the database that noted them was damaged and replaced.</summary>
    private List<ArchiveMonth> Adoptable()
    {
        var archive = new DirectoryInfo(ArchiveReader.FolderOf(folder));
        return archive.Exists
            ? Read(sql => archive.EnumerateFiles($"*{ArchiveMonth.Ending}").Select(file => ArchiveMonth.Parse(file.Name)).OfType<ArchiveMonth>()
                .Where(month => ArchiveTable.Find(sql, month) is not { Done: true }).OrderBy(month => month.Number).ToList())
            : [];
    }

    /// <summary>
    /// Removes the oldest file past its age, one a pass, and none in the first day: a clock that leapt ahead is noticed before it costs the archive.
    /// </summary>
    private async Task ExpireAsync(DateTimeOffset now, CancellationToken cancel)
    {
        if (io.GetElapsedTime(_began) < NoExpiryBefore)
        {
            return;
        }

        var oldest = Read(sql => ArchiveTable.Between(sql, null, long.MinValue, long.MaxValue)).FirstOrDefault(one => one.Done && one.Month.To < now - options.KeepReadings);
        if (oldest is not null)
        {
            await store.WriteAsync(transaction => Done(() => ArchiveTable.Remove(transaction.Sql, oldest.Month)), cancel);
            System.IO.File.Delete(ArchiveReader.FileOf(folder, oldest.Month));
            log.ArchiveExpired(folder, oldest.Month.FileName);
        }
    }

    private static bool IsSound(string path, ArchiveMonth month)
    {
        try
        {
            using var file = ArchiveFile.Open(path, month);
            file.Verify();
            return true;
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }

    private T Read<T>(Func<SqlSession, T> read)
    {
        using var reader = store.OpenReader();
        return reader.Guard(() => read(reader.Sql));
    }

    private static bool Done(Action work)
    {
        work();
        return true;
    }

    /// <summary>Some milliseconds of the writer's time.</summary>
    internal const int RowsAtOnce = 1000;

    /// <summary>Leaves the disk to the readings that come in.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    /// <summary>Past this share of the size limit (in bytes per MB) months are archived early, so that they are before retention would remove them.</summary>
    private const long LargeShareBytes = 800_000;

    private static readonly TimeSpan YoungestWhenLarge = TimeSpan.FromDays(8);

    private static readonly TimeSpan NoExpiryBefore = TimeSpan.FromDays(1);
}
