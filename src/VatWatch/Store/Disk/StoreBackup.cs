using Microsoft.Data.Sqlite;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Disk;

/// <summary>Copies a store while it is in use.</summary>
internal static class StoreBackup
{
    /// <summary>Copies into a file of another name beside the target, checks it, and renames it.</summary>
    public static void Write(SqlSession from, string folder, string target, bool replace)
    {
        var part = $"{target}.part";
        try
        {
            if (File.Exists(target) && !replace)
            {
                throw new StoreUnavailableException($"Store in '{folder}': tried to back it up to '{target}'; that file exists; wanted a new name; nothing was written.");
            }

            File.Delete(part);
            StorePrivacy.CloseToOthers(part);
            from.Execute("VACUUM INTO $file", ("$file", part));
            Check(part);
            using (var written = new FileStream(part, FileMode.Open, FileAccess.ReadWrite))
            {
                written.Flush(flushToDisk: true);
            }

            File.Move(part, target, overwrite: replace);
            DirectorySync.Flush(Path.GetDirectoryName(Path.GetFullPath(target))!);
        }
        catch (Exception caught) when (caught is SqliteException or IOException or UnauthorizedAccessException)
        {
            Discard(part);
            throw new StoreUnavailableException(
                $"Store in '{folder}': tried to back it up to '{target}'; {(caught is SqliteException fault ? SqliteFault.Say(fault) : caught.Message.TrimEnd('.'))}; nothing was kept.", caught);
        }
    }

    private static void Check(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var sql = new SqlSession(connection);
        if (sql.Scalar("PRAGMA quick_check(1)") is var found and not "ok")
        {
            throw new IOException($"the copy is not sound: {found}");
        }
    }

    private static void Discard(string part)
    {
        try
        {
            File.Delete(part);
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            // The first fault is the one to tell; a leftover is overwritten by the next backup.
        }
    }
}
