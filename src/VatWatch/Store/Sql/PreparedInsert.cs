using Microsoft.Data.Sqlite;
using SQLitePCL;
using VatWatch.Store.Series;

namespace VatWatch.Store.Sql;

/// <summary>
/// An insert that runs for every reading, bound by position without boxes or look-ups of names, which take longer than the insert itself. Not thread safe.
/// </summary>
internal sealed class PreparedInsert : IDisposable
{
    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _statement;

    /// <summary>Prepares a statement whose values are question marks.</summary>
    public PreparedInsert(SqliteConnection connection, string sql)
    {
        _database = connection.Handle ?? throw new InvalidOperationException("the database is closed; wanted it open");
        Check(raw.sqlite3_prepare_v2(_database, sql, out _statement));
    }

    /// <summary>Binds a whole number to a place, counted from 1.</summary>
    public PreparedInsert Whole(int place, long value)
    {
        Check(raw.sqlite3_bind_int64(_statement, place, value));
        return this;
    }

    /// <summary>Binds what <see cref="PackedNumber.Pack"/> makes of a number.</summary>
    public PreparedInsert Packed(int place, double? value)
    {
        Check(value switch
        {
            null => raw.sqlite3_bind_null(_statement, place),
            { } nan when double.IsNaN(nan) => raw.sqlite3_bind_blob(_statement, place, PackedNumber.BitsOf(nan)),
            { } number => PackedNumber.WholeOf(number) is { } whole ? raw.sqlite3_bind_int64(_statement, place, whole) : raw.sqlite3_bind_double(_statement, place, number),
        });
        return this;
    }

    /// <summary>Binds NULL.</summary>
    public PreparedInsert Null(int place)
    {
        Check(raw.sqlite3_bind_null(_statement, place));
        return this;
    }

    /// <summary>Binds an empty blob.</summary>
    public PreparedInsert Empty(int place)
    {
        Check(raw.sqlite3_bind_zeroblob(_statement, place, 0));
        return this;
    }

    public void Run()
    {
        var result = raw.sqlite3_step(_statement);
        var again = raw.sqlite3_reset(_statement);
        Check(result == raw.SQLITE_DONE ? raw.SQLITE_OK : again == raw.SQLITE_OK ? result : again);
    }

    public void Dispose() => _statement.Dispose();

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, _database);
}
