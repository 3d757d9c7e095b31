using System.Buffers.Binary;
using Microsoft.Data.Sqlite;
using SQLitePCL;
using VatWatch.Store.Schema;
using VatWatch.Store.Series;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Disk;

/// <summary>The database file of one folder: how it is opened, what is checked first, and where a damaged one goes.</summary>
internal sealed class StoreFile(string folder, string name = StoreFile.DatabaseName)
{
    /// <summary>The database of a data folder; copies have other names.</summary>
    private const string DatabaseName = "vatwatch.db";

    /// <summary>"VatW" as a big-endian number, in the header of our files, so that nobody else's database is taken for ours.</summary>
    public const int ApplicationId = 0x56617457;

    /// <summary>The folder, for sentences.</summary>
    public string Folder => folder;

    /// <summary>Rows that were passed over by whoever opened the file through this.</summary>
    public UnreadableRows Unreadable { get; } = new();

    /// <summary>
    /// Whether nobody can write the file, its disk being full or read-only: then it is read as it stands, without the files that SQLite would make beside it.
    /// </summary>
    public bool IsFrozen { get; set; }

    /// <summary>Whether the database had nothing in it when it was last opened for writing, or was not there.</summary>
    public bool WasEmpty { get; private set; }

    /// <summary>The database.</summary>
    public string File { get; } = Path.Combine(folder, name);

    /// <summary>
    /// Opens for writing, makes the schema and checks the file; throws <see cref="SqliteException"/> for what the disk does and for damage,
    /// <see cref="StoreUnavailableException"/> for a file that is not ours to touch.
    /// </summary>
    public SqlSession OpenForWriting(int version)
    {
        var sql = Connect(SqliteOpenMode.ReadWriteCreate);
        try
        {
            RefuseForeign(sql);
            sql.Execute($"PRAGMA page_size = {PageSize}");
            sql.Execute("PRAGMA journal_mode = WAL");
            sql.Execute("PRAGMA synchronous = FULL");
            WasEmpty = Migrations.Version(sql) == 0;
            sql.Execute($"PRAGMA wal_autocheckpoint = {CheckpointPages}");
            sql.Execute($"PRAGMA journal_size_limit = {4L * CheckpointPages * PageSize}");
            Migrations.Apply(sql, version);
            Check(sql);
            NumberSpace.MakeRoom(sql);
            return sql;
        }
        catch (SqliteException caught) when (caught.SqliteErrorCode == raw.SQLITE_NOTADB && !StartsLikeOurs())
        {
            sql.Dispose();
            throw new StoreUnavailableException(
                $"Store in '{folder}': tried to open vatwatch.db; the file is not a database; wanted ours or no such file; move it away or choose another folder.", caught);
        }
        catch (SqliteException caught) when (IsRefusedForItsHead(caught))
        {
            sql.Dispose();
            throw new SqliteException(caught.Message, raw.SQLITE_CORRUPT);
        }
        catch
        {
            sql.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Opens for a short write beside the process that holds the folder; nothing is created, migrated or set aside. Throws as <see cref="OpenForReading"/>.
    /// </summary>
    public SqlSession OpenBeside() => OpenExisting(SqliteOpenMode.ReadWrite, BesideSeconds, "write to it beside the daemon");

    /// <summary>Opens for reading only; the schema must be of this program's version.</summary>
    /// <exception cref="StoreUnavailableException">No database, not ours, of another version, or not readable; a sentence.</exception>
    public SqlSession OpenForReading() => OpenExisting(SqliteOpenMode.ReadOnly, LockedSeconds, "read it");

    /// <summary>Whether this user can tell what is in the folder: what may not be seen looks as if it were not there.</summary>
    private bool MayLook()
    {
        try
        {
            System.IO.File.GetAttributes(File);
            return true;
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
        catch (IOException)
        {
            return true;
        }
    }

    /// <summary>Why nothing can be read: whether a store has been lost, or never was.</summary>
    private string NoStore(string what, string lost, string never) => $"Store in '{folder}': tried to {what}; " + (FolderLock.HadStore(folder) && name == DatabaseName
        ? $"{name} is {lost}, where a store had been; put a copy of it in its place, or start the daemon to begin a new one."
        : $"{never} of a VatWatch that has run.");

    private SqlSession OpenExisting(SqliteOpenMode mode, int lockedSeconds, string what)
    {
        if (!System.IO.File.Exists(File))
        {
            throw new StoreUnavailableException(MayLook()
                ? NoStore(what, "gone", $"there is no {name}; wanted the data folder")
                : $"Store in '{folder}': tried to {what}; this user may not look into the folder; wanted the user who owns it, or root (sudo).");
        }

        // A pipe has no length; to open one waits for ever.
        if (new FileInfo(System.IO.File.ResolveLinkTarget(File, returnFinalTarget: true)?.FullName ?? File).Length == 0)
        {
            throw new StoreUnavailableException(NoStore(what, "empty", $"{name} is empty; wanted the database"));
        }

        SqlSession? sql = null;
        try
        {
            sql = Connect(mode, lockedSeconds);
            RefuseForeign(sql);
            var found = Migrations.Version(sql);
            return found >= Migrations.Newest ? sql : throw new StoreUnavailableException(found == 0
                ? NoStore(what, "empty", $"{name} is empty; wanted the database")
                : $"Store in '{folder}': tried to {what}; its schema is version {found}; wanted {Migrations.Newest}; start the daemon once to bring it up to date.");
        }
        catch (SqliteException caught)
        {
            sql?.Dispose();
            throw new StoreUnavailableException($"Store in '{folder}': tried to {what}; {name}: {SqliteFault.Say(caught)}.", caught);
        }
        catch
        {
            sql?.Dispose();
            throw;
        }
    }

    /// <summary>Moves a damaged database out of the way, with the date in its name; nothing is deleted but the index of its log.</summary>
    /// <returns>The new name.</returns>
    public string Quarantine(DateTimeOffset now)
    {
        var stem = Path.Combine(folder, $"vatwatch-damaged-{now.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'")}");
        var target = $"{stem}.db";
        for (var again = 2; System.IO.File.Exists(target); again++)
        {
            target = $"{stem}-{again}.db";
        }

        System.IO.File.Move(File, target);
        SetLogAside(target);
        return target;
    }

    /// <summary>Moves the log away from a database that it does not belong to; SQLite would take another's log for its own.</summary>
    /// <param name="target">The database that it belongs to.</param>
    public void SetLogAside(string target)
    {
        if (System.IO.File.Exists($"{File}-wal"))
        {
            System.IO.File.Move($"{File}-wal", $"{target}-wal", overwrite: true);
        }

        System.IO.File.Delete($"{File}-shm");
    }

    private SqlSession Connect(SqliteOpenMode mode, int lockedSeconds = LockedSeconds)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            // sqlite.org/uri.html: no lock, no log and no shared memory are looked for.
            DataSource = IsFrozen && mode == SqliteOpenMode.ReadOnly ? $"{new Uri(Path.GetFullPath(File)).AbsoluteUri}?immutable=1" : File,
            Mode = mode,
            Pooling = false,
            DefaultTimeout = lockedSeconds,
        }.ToString());
        try
        {
            connection.Open();
            raw.sqlite3_busy_timeout(connection.Handle, lockedSeconds * 1000);
            return new SqlSession(connection, Unreadable);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Whether a file that is no database may be a damaged one of ours: it has the head of a database, the zeros that a power cut leaves, or our
    /// schema's words in its first pages. Only looked at when SQLite refused the file: closing it drops the locks that SQLite holds on it in
    /// this process (sqlite.org/howtocorrupt.html §2.2).
    /// </summary>
    private bool StartsLikeOurs()
    {
        var pages = new byte[SchemaPages * PageSize];
        using var stream = new FileStream(File, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var seen = pages.AsSpan(0, stream.ReadAtLeast(pages, pages.Length, throwOnEndOfStream: false));
        var head = seen[..Math.Min(seen.Length, 16)];
        return head.SequenceEqual("SQLite format 3\0"u8[..head.Length]) || !head.ContainsAnyExcept((byte)0) || seen.IndexOf("CREATE TABLE circumstance"u8) >= 0;
    }

    /// <summary>Whether SQLite took a damaged head for a file of a later SQLite, or of a disk that may not be written. Ask it with the file closed.</summary>
    public bool IsRefusedForItsHead(SqliteException refusal) => refusal.SqliteErrorCode is raw.SQLITE_ERROR or raw.SQLITE_READONLY && HasImpossibleHead();

    /// <summary>
    /// Whether the head holds what no SQLite writes: versions other than 1 and 2, a schema format above 4, an encoding above 3
    /// (sqlite.org/fileformat2.html §1.3). Only looked at when SQLite refused the file, as <see cref="StartsLikeOurs"/>.
    /// </summary>
    private bool HasImpossibleHead()
    {
        if (!System.IO.File.Exists(File))
        {
            return false;
        }

        var head = new byte[100];
        using var stream = new FileStream(File, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        return stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length
            && (head[18] is < 1 or > 2 || head[19] is < 1 or > 2
                || BinaryPrimitives.ReadUInt32BigEndian(head.AsSpan(44)) > 4 || BinaryPrimitives.ReadUInt32BigEndian(head.AsSpan(56)) > 3);
    }

    private void RefuseForeign(SqlSession sql)
    {
        var owner = sql.Whole("PRAGMA application_id")!.Value;
        var tables = owner == ApplicationId ? [] : sql.Query("SELECT name FROM sqlite_schema", row => row.GetString(0));
        if (tables.Contains("circumstance") && tables.Contains("measurement"))
        {
            throw new SqliteException($"application_id is {owner}; wanted {ApplicationId}", raw.SQLITE_CORRUPT);
        }

        if (owner != ApplicationId && (owner != 0 || tables.Count > 0))
        {
            throw new StoreUnavailableException(
                $"Store in '{folder}': tried to open {name}; it is the database of another program; wanted ours or no such file; move it away or choose another folder.");
        }

        if (Migrations.Version(sql) is var version && version != Migrations.Newest && (version < 0 || Migrations.IsNewest(sql)))
        {
            throw new SqliteException($"user_version is {version}", raw.SQLITE_CORRUPT);
        }

        if (Migrations.Version(sql) is var found && found > Migrations.Newest)
        {
            throw new StoreUnavailableException(
                $"Store in '{folder}': tried to open {name}; its schema is version {found}; wanted {Migrations.Newest} or older; use the newer program that wrote it.");
        }
    }

    /// <summary>
    /// Looks for damage: all of a small file, all but the large tables of a large one, so that a start never waits long for a check.
    /// </summary>
    private void Check(SqlSession sql)
    {
        if (new FileInfo(File).Length <= CheckWholeBytes)
        {
            Expect(sql, $"PRAGMA quick_check({MostFindings})");
            return;
        }

        foreach (var table in (string[])["run", "probe", "reason", "circumstance", "calibration", "alarm_status", "outbox", "contact_call"])
        {
            Expect(sql, $"PRAGMA quick_check({table})");
        }
    }

    private static void Expect(SqlSession sql, string check)
    {
        if (sql.Query(check, row => row.GetString(0)).FirstOrDefault(found => found != "ok" && !IsOfOneValue(found)) is { } damage)
        {
            throw new SqliteException(damage, raw.SQLITE_CORRUPT);
        }
    }

    /// <summary>Whether a finding is about what stands in a field of a sound tree: the row is passed over when it is read, and the file is not given up for it.</summary>
    internal static bool IsOfOneValue(string finding) => finding.StartsWith("NULL value in ", StringComparison.Ordinal)
        || finding.StartsWith("NUMERIC value in ", StringComparison.Ordinal)
        || finding.StartsWith("TEXT value in ", StringComparison.Ordinal);

    /// <summary>Bytes; measured against 2, 4 and 8 KiB, see FORMAT.md.</summary>
    internal const int PageSize = 1024;

    /// <summary>Pages in the log before they are moved into the database; see FORMAT.md.</summary>
    internal const int CheckpointPages = 4000;

    /// <summary>Reading 64 MiB takes 0.1 s from a warm disk and about 2 s from a slow memory card (20 to 40 MB/s, common practice, no source).</summary>
    private const long CheckWholeBytes = 64L * 1024 * 1024;

    /// <summary>Far more than the values that flip in a file whose trees are sound.</summary>
    private const int MostFindings = 100;

    /// <summary>The schema of a new store takes the first few pages; more are looked at for its words.</summary>
    private const int SchemaPages = 32;

    /// <summary>How long a statement waits for another program's lock; the least that the ADO.NET provider takes.</summary>
    private const int LockedSeconds = 1;

    /// <summary>A write beside the daemon waits out several of its commits, each of which may take a slow memory card a second.</summary>
    private const int BesideSeconds = 10;
}
