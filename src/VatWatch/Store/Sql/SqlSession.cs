using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;
using VatWatch.Store.Schema;

namespace VatWatch.Store.Sql;

/// <summary>
/// One connection with its prepared statements. Values are bound by name. Rows that cannot be read are passed over and remembered in
/// <paramref name="unreadable"/>. Not thread safe.
/// </summary>
internal sealed class SqlSession(SqliteConnection connection, UnreadableRows? unreadable = null) : IDisposable
{
    private readonly UnreadableRows _unreadable = unreadable ?? new();
    private readonly Dictionary<string, SqlStatement> _statements = new(StringComparer.Ordinal);

    /// <summary>Runs a statement; the number of rows that the last insert, update or delete changed.</summary>
    public int Execute(string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        Statement(sql).Bind(values).Run();
        return SQLitePCL.raw.sqlite3_changes(connection.Handle);
    }

    /// <summary>Runs statements one after another, as a step of the schema has them.</summary>
    public void ExecuteAll(string script) => SqliteException.ThrowExceptionForRC(SQLitePCL.raw.sqlite3_exec(connection.Handle, script), connection.Handle);

    /// <summary>First column of the first row; null when there is no row or it holds NULL.</summary>
    public object? Scalar(string sql, params ReadOnlySpan<(string Name, object? Value)> values) => Statement(sql).Bind(values).Scalar();

    /// <summary>First column of the first row as a whole number; null when there is none, or something else stands there.</summary>
    public long? Whole(string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        switch (Scalar(sql, values))
        {
            case null:
                return null;
            case long number:
                return number;
            case var other:
                _unreadable.Add(sql, sql, $"it gives {other.GetType().Name}; wanted a whole number");
                return null;
        }
    }

    /// <summary>Every row that can be read, turned by <paramref name="row"/>.</summary>
    public List<T> Query<T>(string sql, Func<StoreRow, T> row, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        var statement = Statement(sql).Bind(values);
        var rows = new List<T>();
        try
        {
            while (statement.Step())
            {
                if (TryRead(sql, statement, row, out var read))
                {
                    rows.Add(read);
                }
            }
        }
        finally
        {
            statement.Reset();
        }

        return rows;
    }

    /// <summary>Rows one by one, on a statement of its own so that others may run meanwhile.</summary>
    public IEnumerable<T> Stream<T>(string sql, Func<StoreRow, T> row, params (string Name, object? Value)[] values)
    {
        using var statement = new SqlStatement(connection, sql);
        statement.Bind(values);
        while (statement.Step())
        {
            if (TryRead(sql, statement, row, out var read))
            {
                yield return read;
            }
        }
    }

    /// <summary>A statement, prepared once.</summary>
    public SqlStatement Statement(string sql)
    {
        if (!_statements.TryGetValue(sql, out var statement))
        {
            _statements.Add(sql, statement = new SqlStatement(connection, sql));
        }

        return statement;
    }

    /// <summary>Whether the file was renamed, moved or deleted since it was opened; sqlite.org/c3ref/c_fcntl_begin_atomic_write.html.</summary>
    public bool HasMoved()
    {
        var moved = 0;
        return sqlite3_file_control(connection.Handle!.DangerousGetHandle(), null, HasMovedCode, ref moved) == 0 && moved != 0;
    }

    public void Dispose()
    {
        foreach (var statement in _statements.Values)
        {
            statement.Dispose();
        }

        _statements.Clear();
        connection.Dispose();
    }

    /// <summary>SQLITE_FCNTL_HAS_MOVED of sqlite3.h.</summary>
    private const int HasMovedCode = 20;

#pragma warning disable SYSLIB1054, CA2101 // LibraryImport would need unsafe code in the whole project; the name is always null, which is the main database.
    [DllImport("e_sqlite3")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern int sqlite3_file_control(nint database, string? name, int code, ref int value);
#pragma warning restore SYSLIB1054, CA2101

    private bool TryRead<T>(string sql, SqlStatement statement, Func<StoreRow, T> row, out T read)
    {
        var found = new StoreRow(statement);
        try
        {
            read = row(found);
            return true;
        }
        catch (Exception caught) when (UnreadableRows.IsRowFault(caught))
        {
            _unreadable.Add(sql, found, caught);
            read = default!;
            return false;
        }
    }
}
