using Microsoft.Data.Sqlite;

namespace VatWatch.Store.Sql;

/// <summary>Tells faults of the disk from faults of a statement, and says them in words.</summary>
/// <remarks>Codes: sqlite.org/rescode.html.</remarks>
internal static class SqliteFault
{
    /// <summary>Whether the file holds something that is not a sound database.</summary>
    public static bool IsDamage(SqliteException fault) => fault.SqliteErrorCode is Corrupt or NotADatabase;

    /// <summary>Whether the store as a whole cannot be used, as opposed to one statement being wrong.</summary>
    public static bool IsUnavailable(SqliteException fault) => Words(fault.SqliteErrorCode) is not null;

    /// <summary>Whether the same connection may simply try again: nothing is wrong with the file.</summary>
    public static bool IsPassing(SqliteException fault) => fault.SqliteErrorCode is 5 or 6 or 13;

    /// <summary>What is the matter, in words.</summary>
    public static string Say(SqliteException fault) =>
        $"{Words(fault.SqliteErrorCode) ?? "SQLite refused a statement"} (SQLite code {fault.SqliteExtendedErrorCode})";

    private static string? Words(int code) => code switch
    {
        3 or 23 => "permission was denied",
        5 or 6 => "another program holds the database locked",
        7 => "memory has run out",
        8 => "the database or its folder may not be written",
        10 => "the disk reported an error",
        Corrupt => "the database is damaged",
        13 => "the disk is full",
        14 => "the database file cannot be opened",
        15 => "the database's lock file cannot be used",
        22 => "the file system cannot hold the database",
        NotADatabase => "the file is not a database",
        _ => null,
    };

    private const int Corrupt = 11;
    private const int NotADatabase = 26;
}
