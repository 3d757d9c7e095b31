using System.Text.RegularExpressions;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Schema;

/// <summary>
/// Rows of a sound file that hold what none of our versions writes: a bit that flipped, another program's hand. They are left where they are and passed
/// over, so that one of them stops nothing; what they are is remembered here, to be told. Thread safe.
/// </summary>
internal sealed partial class UnreadableRows
{
    private readonly Lock _gate = new();
    private readonly Dictionary<string, HashSet<string>> _seen = new(StringComparer.Ordinal);
    private readonly List<string> _sentences = [];

    /// <summary>One sentence a row, at most <see cref="MostRemembered"/>.</summary>
    public IReadOnlyList<string> Sentences
    {
        get
        {
            lock (_gate)
            {
                return [.. _sentences];
            }
        }
    }

    /// <summary>How many rows of which tables; null when there are none.</summary>
    public string? Summary
    {
        get
        {
            lock (_gate)
            {
                return _seen.Count == 0 ? null : string.Join(", ", _seen.Select(table => $"{table.Value.Count}{(table.Value.Count >= MostRemembered ? " or more" : "")} of {table.Key}"));
            }
        }
    }

    /// <summary>Whether what reading a row threw tells of the row and not of the disk or of a mistake in the statement.</summary>
    public static bool IsRowFault(Exception caught) => caught is InvalidDataException or FormatException or ArgumentException or OverflowException or System.Text.Json.JsonException;

    /// <summary>Remembers a row once, however often it is met.</summary>
    public void Add(string statement, StoreRow row, Exception why) => Add(statement, Identity(row), why.Message);

    /// <summary>Remembers a value that is no row of its own.</summary>
    public void Add(string statement, string identity, string why)
    {
        var table = TableName().Match(statement) is { Success: true } found ? found.Groups[1].Value : "a table";
        lock (_gate)
        {
            if (!_seen.TryGetValue(table, out var rows))
            {
                _seen.Add(table, rows = new(StringComparer.Ordinal));
            }

            if (rows.Count < MostRemembered && rows.Add(identity) && _sentences.Count < MostRemembered)
            {
                _sentences.Add($"A row of {table} ({identity}) cannot be read and is passed over: {FreeText.Quoted(why)}.");
            }
        }
    }

    /// <summary>The first columns, which hold the key in every statement that reads rows; on one line and short.</summary>
    private static string Identity(StoreRow row)
    {
        var names = new List<string>();
        for (var column = 0; column < Math.Min(row.FieldCount, IdentityColumns); column++)
        {
            names.Add($"{row.GetName(column)} {Shown(row, column)}");
        }

        return string.Join(", ", names);
    }

    private static string Shown(StoreRow row, int column)
    {
        var text = SQLitePCL.raw.sqlite3_column_text(row.Statement, column).utf8_to_string() ?? "none";
        return string.Concat((text.Length > LongestShown ? $"{text[..LongestShown]}..." : text).Select(letter => char.IsLetterOrDigit(letter) || " -.:_".Contains(letter) ? letter : '?'));
    }

    [GeneratedRegex(@"\bFROM\s+(\w+)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex TableName();

    /// <summary>Past this a file is damaged as a whole, and more sentences tell nothing new.</summary>
    internal const int MostRemembered = 1000;

    private const int IdentityColumns = 2;
    private const int LongestShown = 40;
}
