using Microsoft.Data.Sqlite;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Disk;

/// <summary>
/// Carries what is small and cannot be measured again from a damaged database into the new one: calibrations, alarms, the outbox. Readings
/// stay in the file that was set aside.
/// </summary>
internal static class Salvage
{
    /// <summary>Copies each table whole or not at all.</summary>
    /// <returns>A clause that says what was carried over and what was not.</returns>
    public static string CarryOver(SqlSession into, string damaged)
    {
        // Also lets a schema be read of which one entry is unreadable (sqlite.org/pragma.html#pragma_writable_schema).
        into.Execute("PRAGMA writable_schema = ON");
        try
        {
            into.Execute("ATTACH DATABASE $file AS damaged", ("$file", damaged));
            var said = CopyAll(into);
            into.Execute("DETACH DATABASE damaged");
            return said;
        }
        catch (SqliteException)
        {
            return "nothing could be carried over";
        }
        finally
        {
            into.Execute("PRAGMA writable_schema = OFF");
        }
    }

    private static string CopyAll(SqlSession into)
    {
        // Numbers of earlier runs must not be given again, or old monotonic times would pass for new ones.
        var whole = Tables.ToLookup(table => table.Names.Aggregate(true, (all, name) => Copy(into, name) && all), table => table.Words);
        var (saved, lost) = (string.Join(", ", whole[true]), string.Join(", ", whole[false]));
        return lost.Length == 0 ? $"{saved} were carried over" : saved.Length == 0 ? "nothing could be carried over" : $"{saved} were carried over, {lost} could not be";
    }

    private static bool Copy(SqlSession into, string table)
    {
        into.Execute("BEGIN IMMEDIATE");
        try
        {
            // A database of an older schema has fewer columns; the new one leaves the rest NULL.
            var columns = string.Join(", ", into.Query($"SELECT name FROM pragma_table_info('{table}', 'damaged')", row => row.GetString(0)));
            // A row without what every row has is left out; the others are not.
            into.Execute($"INSERT OR IGNORE INTO main.{table} ({columns}) SELECT {columns} FROM damaged.{table}");
            into.Execute("COMMIT");
            return true;
        }
        catch (SqliteException)
        {
            into.Execute("ROLLBACK");
            return false;
        }
    }

    private static readonly (string Words, string[] Names)[] Tables =
    [
        ("runs", ["run"]),
        ("calibrations", ["calibration"]),
        ("alarms", ["alarm_status", "alarm_change"]),
        ("sentences to be told", ["outbox", "outbox_dropped"]),
        ("sessions", ["session", "session_entry", "photo"]),
        ("what was learned of the heat", ["learned_heat"]),
        ("plans", ["plan"]),
        ("who was told", ["contact_call"]),
    ];
}
