using Microsoft.Data.Sqlite;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Disk;

/// <summary>
/// A short write to a store that another process holds: what a verb adds while the daemon runs. WAL lets one write at a time, so it waits for
/// the daemon's commit and the daemon for this one, both for milliseconds.
/// </summary>
public static class StoreBeside
{
    /// <summary>Runs <paramref name="work"/> in one transaction and returns when it is on disk (synchronous FULL). What it throws undoes it.</summary>
    /// <exception cref="StoreUnavailableException">It was not committed; a sentence.</exception>
    public static T Write<T>(string folder, Func<StoreTransaction, T> work)
    {
        using var sql = new StoreFile(folder).OpenBeside();
        try
        {
            sql.Execute("PRAGMA synchronous = FULL");
            sql.Execute("BEGIN IMMEDIATE");
            var transaction = new StoreTransaction(sql, sql.Whole("SELECT max(id) FROM run") ?? 0);
            var result = work(transaction);
            transaction.End();
            sql.Execute("COMMIT");
            return result;
        }
        catch (SqliteException caught)
        {
            throw new StoreUnavailableException(
                $"Store in '{folder}': tried to write to it beside the daemon; {SqliteFault.Say(caught)}; nothing was written.", caught);
        }
    }

    /// <summary>Whether a process holds the folder: a daemon, nearly always.</summary>
    /// <exception cref="StoreUnavailableException">This user may not look; a sentence.</exception>
    public static bool IsHeld(string folder)
    {
        try
        {
            return FolderLock.IsHeld(folder);
        }
        catch (UnauthorizedAccessException caught)
        {
            throw new StoreUnavailableException($"Store in '{folder}': tried to see whether a daemon uses it; this user may not look into the folder; wanted the daemon's user, or root (sudo).", caught);
        }
    }
}
