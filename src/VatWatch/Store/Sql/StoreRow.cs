using SQLitePCL;
using VatWatch.Vats.Configuration;

namespace VatWatch.Store.Sql;

/// <summary>
/// One row of a result, read strictly: SQLite keeps any kind of value in any column, so a damaged field would otherwise come back as 0 or as garbage. A
/// column is named by its place or its name. Every member throws <see cref="InvalidDataException"/>, in a clause, for a value of another kind.
/// </summary>
internal readonly struct StoreRow(SqlStatement statement)
{
    /// <summary>Columns of the result.</summary>
    public int FieldCount => statement.Columns.Length;

    /// <summary>The statement, for what looks at a field as it stands.</summary>
    public sqlite3_stmt Statement => statement.Row;

    /// <summary>The field as it stands, of whatever kind.</summary>
    public SqliteValue Value(int column) => new(Statement, column);

    public int Place(string column) => statement.Columns.IndexOf(column) is >= 0 and var place ? place : throw new InvalidOperationException($"the statement has no column {column}");

    public string GetName(int column) => statement.Columns[column];

    /// <summary>Whether it holds nothing.</summary>
    public bool IsDBNull(int column) => KindOf(column) == raw.SQLITE_NULL;

    public long GetInt64(int column) => Value(column) is { Kind: raw.SQLITE_INTEGER } value ? value.Whole : throw Wrong(column, "a whole number");

    /// <summary>A whole number of 32 bits.</summary>
    public int GetInt32(int column) => GetInt64(column) is var number and >= int.MinValue and <= int.MaxValue ? (int)number : throw Wrong(column, "a whole number of 32 bits");

    public double GetDouble(int column) => Value(column) is { Kind: raw.SQLITE_INTEGER or raw.SQLITE_FLOAT, Real: var number } && double.IsFinite(number)
        ? number
        : throw Wrong(column, "a number");

    /// <summary>Text of at most <see cref="LongestText"/> bytes, in sound UTF-8 and without NUL.</summary>
    public string GetString(int column)
    {
        if (KindOf(column) != raw.SQLITE_TEXT || raw.sqlite3_column_bytes(Statement, column) > LongestText)
        {
            throw Wrong(column, $"text of at most {LongestText} bytes");
        }

        var text = raw.sqlite3_column_blob(Statement, column);
        return text.Contains((byte)0) || !System.Text.Unicode.Utf8.IsValid(text) ? throw Wrong(column, "text in UTF-8") : System.Text.Encoding.UTF8.GetString(text);
    }

    /// <summary>Whether it holds bytes, but none.</summary>
    public bool IsEmptyBlob(int column) => KindOf(column) == raw.SQLITE_BLOB && raw.sqlite3_column_bytes(Statement, column) == 0;

    public byte[] GetBytes(int column) => KindOf(column) == raw.SQLITE_BLOB ? raw.sqlite3_column_blob(Statement, column).ToArray() : throw Wrong(column, "bytes");

    /// <summary>The same by name.</summary>
    public long GetInt64(string column) => GetInt64(Place(column));

    /// <summary>The same by name.</summary>
    public int GetInt32(string column) => GetInt32(Place(column));

    /// <summary>A whole number of 32 bits, or null where there is none.</summary>
    public int? OptionalInt32(string column) => Place(column) is var place && IsDBNull(place) ? null : GetInt32(place);

    /// <summary>The same by name.</summary>
    public double? OptionalDouble(string column) => Place(column) is var place && IsDBNull(place) ? null : GetDouble(place);

    /// <summary>The same by name.</summary>
    public string GetString(string column) => GetString(Place(column));

    /// <summary>The name of a vat, a probe or an alarm: topics and addresses are made of it.</summary>
    public string Name(string column) =>
        GetString(column) is var name && ConfigNode.IsNameOfOne(name) ? name : throw new InvalidDataException($"{column} is no name; wanted lower-case letters, digits and hyphens");

    /// <summary>Text, or null where there is none.</summary>
    public string? OptionalString(string column) => Place(column) is var place && IsDBNull(place) ? null : GetString(place);

    /// <summary>Whether a whole number is not 0.</summary>
    public bool Flag(string column) => GetInt64(column) != 0;

    /// <summary>Whether a whole number is not 0; null where there is none.</summary>
    public bool? OptionalFlag(string column) => Place(column) is var place && IsDBNull(place) ? null : GetInt64(place) != 0;

    /// <summary>A moment as <see cref="StoredTime"/> keeps it.</summary>
    public DateTimeOffset Moment(string column) => StoredTime.Utc(GetInt64(column));

    /// <summary>The same, or null where there is none.</summary>
    public DateTimeOffset? OptionalMoment(string column) => Place(column) is var place && IsDBNull(place) ? null : StoredTime.Utc(GetInt64(place));

    private int KindOf(int column) => Value(column).Kind;

    private InvalidDataException Wrong(int column, string wanted) => new($"{GetName(column)} is {KindWord(KindOf(column))}; wanted {wanted}");

    private static string KindWord(int kind) => kind switch
    {
        raw.SQLITE_NULL => "empty",
        raw.SQLITE_INTEGER => "a whole number",
        raw.SQLITE_FLOAT => "a real number",
        raw.SQLITE_TEXT => "other text",
        _ => "other bytes",
    };

    /// <summary>Far above every text that is kept: the longest are notes of the log book and documents of some kilobytes.</summary>
    internal const int LongestText = 256 * 1024;
}
