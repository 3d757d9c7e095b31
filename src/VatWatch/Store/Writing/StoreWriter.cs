using Microsoft.Data.Sqlite;
using SQLitePCL;
using VatWatch.Measurements;
using VatWatch.Store.Disk;
using VatWatch.Store.Schema;
using VatWatch.Store.Series;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Writing;

/// <summary>
/// The one writing connection. Opens the file when it is not open, sets a damaged one aside, and commits. For one thread at a time.
/// </summary>
internal sealed class StoreWriter(StoreFile file, StoreOptions options, TimeProvider time) : IDisposable
{
    private SqlSession? _sql;
    private MeasurementTable? _measurements;
    private readonly Retention _retention = new(options);
    private FolderLock? _folder;
    private bool _damaged;
    private long _started;
    private long _looked;
    private string? _salvageFrom;

    /// <summary>Row of this start of the daemon; another one after a damaged file was replaced.</summary>
    public long Run { get; private set; }

    /// <summary>A sentence about the file that was set aside, or was empty where a store had been; null when neither was so.</summary>
    public string? Quarantined { get; private set; }

    /// <summary>Takes the folder and opens the file, unless that is done.</summary>
    /// <exception cref="StoreInUseException">Another process has the folder.</exception>
    /// <exception cref="StoreUnavailableException">It cannot be opened, in a sentence.</exception>
    public SqlSession Open()
    {
        if (_sql is not null)
        {
            return _sql;
        }

        _folder ??= TakeFolder();
        try
        {
            if (_damaged)
            {
                QuarantineFile();
            }

            return OpenOnce();
        }
        catch (SqliteException caught) when (SqliteFault.IsDamage(caught))
        {
            QuarantineFile();
            return Try(OpenOnce);
        }
        catch (Exception caught) when (caught is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw Unavailable(caught);
        }
    }

    /// <summary>
    /// Commits one transaction: the urgent works first, each on its own so that one's mistake does not touch the others, then the readings.
    /// Answers the works that made a mistake; the caller answers the others, once it has noted how the commit went.
    /// </summary>
    /// <returns>The works that are on disk.</returns>
    /// <exception cref="StoreUnavailableException">Nothing was committed, in a sentence.</exception>
    public IReadOnlyList<UrgentWrite> Commit(IReadOnlyList<UrgentWrite> urgent, IReadOnlyList<Measurement> readings)
    {
        var done = new List<UrgentWrite>(urgent.Count);
        try
        {
            var sql = Open();
            LookBack(sql);
            sql.Execute("BEGIN IMMEDIATE");
            foreach (var write in urgent)
            {
                if (RunAlone(sql, write))
                {
                    done.Add(write);
                }
            }

            _measurements ??= new(sql, Run);
            _measurements.Add(readings);
            _retention.Trim(sql, Newest(readings), readings.Count);
            sql.Execute("COMMIT");
            return done;
        }
        catch (Exception caught)
        {
            RollBack(caught);
            if (caught is SqliteException or IOException or UnauthorizedAccessException)
            {
                throw Unavailable(caught);
            }

            if (caught is StoreInUseException)
            {
                throw new StoreUnavailableException(caught.Message, caught);
            }

            throw;
        }
    }

    /// <summary>The latest label that is to be trusted; null without one.</summary>
    private static DateTimeOffset? Newest(IReadOnlyList<Measurement> readings)
    {
        DateTimeOffset? newest = null;
        for (var i = 0; i < readings.Count; i++)
        {
            var stamp = readings[i].Stamp;
            newest = stamp.UtcTrusted && !(stamp.Utc <= newest) ? stamp.Utc : newest;
        }

        return newest;
    }

    /// <summary>Writes something small, so that a disk that failed is tried even when nothing waits for it.</summary>
    public IReadOnlyList<UrgentWrite> TryDisk() => Note("UPDATE run SET tried = $now WHERE id = $run");

    /// <summary>Whether the next commit looks first whether the file can be found by its name, which takes as long as the commit.</summary>
    public bool IsLookDue => time.GetElapsedTime(_looked) >= LooksApart;

    /// <summary>Notes that this run ended in order.</summary>
    public void MarkEnd() => Note("UPDATE run SET ended = $now WHERE id = $run");

    public void Dispose()
    {
        Disconnect();
        _folder?.Dispose();
        _folder = null;
    }

    private void Disconnect()
    {
        _measurements = null;
        _sql?.Dispose();
        _sql = null;
    }

    private FolderLock TakeFolder()
    {
        try
        {
            StorePrivacy.MakeFolder(file.Folder);
            var taken = FolderLock.Take(file.Folder);
            StorePrivacy.CloseToOthers(file.File);
            return taken;
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            throw new StoreUnavailableException(
                $"Store in '{file.Folder}': tried to open it; {caught.Message.TrimEnd('.')}; wanted a folder that this user may write to.", caught)
            {
                IsOfDisk = DiskFault.Is(caught),
            };
        }
    }

    private SqlSession OpenOnce()
    {
        var sql = file.OpenForWriting(Migrations.Newest);
        try
        {
            if (_salvageFrom is { } damaged)
            {
                _salvageFrom = null;
                Quarantined = $"{Quarantined}; {Salvage.CarryOver(sql, damaged)}.";
            }

            if (file.WasEmpty && _folder!.HasHadStore)
            {
                Quarantined ??= $"Store in '{file.Folder}': vatwatch.db is empty or gone, where a store had been; a new one was begun, without what was in it. "
                    + "If there is a copy (vatwatch backup), stop VatWatch, put the copy in its place and start again.";
            }

            _folder!.NoteStore();
            if (Run == 0 || !HasRun(sql))
            {
                Quarantined ??= Run == 0 ? null : $"Store in '{file.Folder}': another vatwatch.db was put in its place while VatWatch ran; that one is written to from here on.";
                _started = StoredTime.Of(time.GetUtcNow());
                sql.Execute("INSERT INTO run (started, pid) VALUES ($started, $pid)", ("$started", _started), ("$pid", (long)Environment.ProcessId));
                Run = sql.Whole("SELECT last_insert_rowid()")!.Value;
            }

            file.IsFrozen = false;
            _looked = time.GetTimestamp();
            return _sql = sql;
        }
        catch (SqliteException caught)
        {
            sql.Dispose();
            if (file.IsRefusedForItsHead(caught))
            {
                throw new SqliteException(caught.Message, raw.SQLITE_CORRUPT);
            }

            throw;
        }
        catch
        {
            sql.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Whoever opens the file by its name must find what is committed: one that was removed, moved, replaced or emptied still takes commits, and keeps them
    /// for nobody.
    /// </summary>
    private void LookBack(SqlSession sql)
    {
        if (!IsLookDue)
        {
            return;
        }

        _looked = time.GetTimestamp();
        if (sql.HasMoved())
        {
            // The folder may be another one too, as when a disk is mounted late: its lock is taken anew.
            Dispose();
            if (Directory.Exists(file.Folder))
            {
                file.SetLogAside(Path.Combine(file.Folder, "vatwatch-moved.db"));
            }

            throw new StoreUnavailableException($"Store in '{file.Folder}': tried to write vatwatch.db; it was removed, moved or replaced since it was opened; what is there now is taken up.");
        }

        try
        {
            // A schema that was spoilt is seen by whoever reads it anew; this connection has its own.
            using var seen = new StoreReader(file);
            _ = seen.NewestRun;
        }
        catch (StoreUnavailableException caught) when (caught.InnerException is SqliteException fault && !SqliteFault.IsDamage(fault))
        {
            // The writing connection says itself what the disk does.
        }
    }

    private bool HasRun(SqlSession sql) => sql.Whole("SELECT started FROM run WHERE id = $run", ("$run", Run)) == _started;

    private IReadOnlyList<UrgentWrite> Note(string update)
    {
        var now = StoredTime.Of(time.GetUtcNow());
        return Commit([new UrgentWrite(transaction => transaction.Sql.Execute(update, ("$now", now), ("$run", Run)), () => { }, _ => { })], []);
    }

    private bool RunAlone(SqlSession sql, UrgentWrite write)
    {
        var transaction = new StoreTransaction(sql, Run);
        sql.Execute("SAVEPOINT work");
        try
        {
            write.Run(transaction);
            sql.Execute("RELEASE work");
            return true;
        }
        catch (Exception caught) when (caught is not SqliteException fault || !SqliteFault.IsUnavailable(fault))
        {
            sql.Execute("ROLLBACK TO work");
            sql.Execute("RELEASE work");
            write.Fail(caught);
            return false;
        }
        finally
        {
            transaction.End();
        }
    }

    private void RollBack(Exception cause)
    {
        _measurements = null;
        _damaged |= cause is SqliteException damage && SqliteFault.IsDamage(damage);
        try
        {
            if (cause is SqliteException fault && SqliteFault.IsPassing(fault) && _sql is not null)
            {
                // A full disk may have rolled back by itself already (sqlite.org/lang_transaction.html §3); then this is refused and the connection goes.
                _sql.Execute("ROLLBACK");
                return;
            }
        }
        catch (SqliteException)
        {
        }

        Disconnect();
    }

    private void QuarantineFile()
    {
        Disconnect();
        Try<object?>(() =>
        {
            var target = file.Quarantine(time.GetUtcNow());
            Quarantined = $"Store in '{file.Folder}': vatwatch.db is damaged; it was set aside as {Path.GetFileName(target)} and a new one was begun";
            _salvageFrom = target;
            _damaged = false;
            return null;
        });
    }

    /// <summary>So many readings at most are lost with a file that somebody removes; opening it takes about a millisecond.</summary>
    private static readonly TimeSpan LooksApart = TimeSpan.FromSeconds(5);

    private T Try<T>(Func<T> step)
    {
        try
        {
            return step();
        }
        catch (Exception caught) when (caught is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw Unavailable(caught);
        }
    }

    private StoreUnavailableException Unavailable(Exception caught) => new(
        $"Store in '{file.Folder}': tried to write vatwatch.db; {(caught is SqliteException fault ? SqliteFault.Say(fault) : caught.Message.TrimEnd('.'))}; wanted a folder that can be written and has room.",
        caught)
    {
        IsOfDisk = DiskFault.Is(caught),
    };
}
