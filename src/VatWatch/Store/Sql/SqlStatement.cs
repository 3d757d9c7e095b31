using Microsoft.Data.Sqlite;
using SQLitePCL;
using VatWatch.Store.Series;

namespace VatWatch.Store.Sql;

/// <summary>
/// A statement that is prepared once and bound without look-ups of names, which take longer than an insert itself: what runs for every reading binds its values by
/// place, the others give names whose places are looked up the first time. Not thread safe.
/// </summary>
internal sealed class SqlStatement : IDisposable
{
    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _statement;
    private string[] _names = [];
    private int[] _places = [];
    private string[]? _columns;
    private bool _isRunning;

    /// <summary>Prepares one statement.</summary>
    public SqlStatement(SqliteConnection connection, string sql)
    {
        _database = connection.Handle ?? throw new InvalidOperationException("the database is closed; wanted it open");
        Check(raw.sqlite3_prepare_v2(_database, sql, out _statement, out var rest));
        if (!string.IsNullOrWhiteSpace(rest))
        {
            _statement.Dispose();
            throw new InvalidOperationException($"'{rest}' is another statement; wanted one");
        }
    }

    /// <summary>Binds a whole number to a place, counted from 1.</summary>
    public SqlStatement Whole(int place, long value)
    {
        Check(raw.sqlite3_bind_int64(_statement, place, value));
        return this;
    }

    /// <summary>Binds what <see cref="PackedNumber.Pack"/> makes of a number.</summary>
    public SqlStatement Packed(int place, double? value)
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
    public SqlStatement Null(int place)
    {
        Check(raw.sqlite3_bind_null(_statement, place));
        return this;
    }

    /// <summary>Binds an empty blob.</summary>
    public SqlStatement Empty(int place)
    {
        Check(raw.sqlite3_bind_zeroblob(_statement, place, 0));
        return this;
    }

    /// <summary>Binds values by their names, which are usually the same as last time.</summary>
    /// <exception cref="InvalidOperationException">Its rows are being read.</exception>
    public SqlStatement Bind(ReadOnlySpan<(string Name, object? Value)> values)
    {
        if (_isRunning)
        {
            throw new InvalidOperationException("the statement's rows are being read; wanted it at its end");
        }

        for (var i = 0; i < values.Length; i++)
        {
            if (_names.Length != values.Length || !ReferenceEquals(_names[i], values[i].Name))
            {
                FindPlaces(values);
            }

            Bind(_places[i], values[i].Value);
        }

        return this;
    }

    /// <summary>Goes to the first or the next row. After the last there is none, and it begins anew; so it does after a fault.</summary>
    public bool Step()
    {
        var result = raw.sqlite3_step(_statement);
        _isRunning = result == raw.SQLITE_ROW;
        if (_isRunning)
        {
            return true;
        }

        var again = raw.sqlite3_reset(_statement);
        Check(result == raw.SQLITE_DONE ? raw.SQLITE_OK : again == raw.SQLITE_OK ? result : again);
        return false;
    }

    /// <summary>Leaves the rows that were not read, so that it begins anew and holds no lock.</summary>
    public void Reset()
    {
        _isRunning = false;
        _ = raw.sqlite3_reset(_statement);
    }

    /// <summary>Runs it to its end.</summary>
    public void Run()
    {
        while (Step())
        {
        }
    }

    /// <summary>Runs it; the first field of its first row, null when there is no row or it holds NULL.</summary>
    public object? Scalar()
    {
        var first = Step() ? First(_statement) : null;
        while (_isRunning && Step())
        {
        }

        return first;
    }

    /// <summary>The row it stands on.</summary>
    public sqlite3_stmt Row => _statement;

    /// <summary>Names of the columns of its rows, in their order.</summary>
    public ReadOnlySpan<string> Columns => _columns ??= [.. Enumerable.Range(0, raw.sqlite3_column_count(_statement)).Select(column => raw.sqlite3_column_name(_statement, column).utf8_to_string())];

    public void Dispose() => _statement.Dispose();

    private static object? First(sqlite3_stmt row) => raw.sqlite3_column_type(row, 0) switch
    {
        raw.SQLITE_INTEGER => raw.sqlite3_column_int64(row, 0),
        raw.SQLITE_FLOAT => raw.sqlite3_column_double(row, 0),
        raw.SQLITE_TEXT => raw.sqlite3_column_text(row, 0).utf8_to_string(),
        raw.SQLITE_BLOB => raw.sqlite3_column_blob(row, 0).ToArray(),
        _ => null,
    };

    private void FindPlaces(ReadOnlySpan<(string Name, object? Value)> values)
    {
        (_names, _places) = (new string[values.Length], new int[values.Length]);
        for (var i = 0; i < values.Length; i++)
        {
            _names[i] = values[i].Name;
            _places[i] = raw.sqlite3_bind_parameter_index(_statement, values[i].Name) is > 0 and var place
                ? place
                : throw new InvalidOperationException($"the statement has no parameter {values[i].Name}");
        }
    }

    private void Bind(int place, object? value) => Check(value switch
    {
        null => raw.sqlite3_bind_null(_statement, place),
        long whole => raw.sqlite3_bind_int64(_statement, place, whole),
        string text => raw.sqlite3_bind_text(_statement, place, text),
        double number when !double.IsNaN(number) => raw.sqlite3_bind_double(_statement, place, number),
        byte[] bytes => raw.sqlite3_bind_blob(_statement, place, bytes),
        _ => throw new InvalidOperationException($"{value} is no value of the store; wanted a whole number, a number, text or bytes"),
    });

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, _database);
}
