using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Keeps rows numberable. SQLite gives the next row of a table the number after the largest, and refuses as if the disk were full when that is the largest
/// of all (sqlite.org/autoinc.html): one damaged number would end all writing.
/// </summary>
internal static class NumberSpace
{
    /// <summary>Gives rows whose number no store ever reached the next one after the others.</summary>
    public static void MakeRoom(SqlSession sql)
    {
        Renumber(sql, "probe", "id", RollupTable.LargestProbe);
        foreach (var (table, newest) in sql.Query("SELECT name, seq FROM sqlite_sequence", row => (row.GetString(0), row.IsDBNull(1) ? 0 : row.GetInt64(1))))
        {
            var column = table switch { "session" => "row", "late" => "seq", _ => "id" };
            if (Renumber(sql, table, column, Most) || newest is < 0 or > Most)
            {
                sql.Execute($"UPDATE sqlite_sequence SET seq = (SELECT coalesce(max({column}), 0) FROM {table}) WHERE name = $table", ("$table", table));
            }
        }
    }

    private static bool Renumber(SqlSession sql, string table, string column, long most)
    {
        var wrong = sql.Query($"SELECT {column} FROM {table} WHERE {column} < 0 OR {column} > {most}", row => row.GetInt64(0));
        foreach (var number in wrong)
        {
            sql.Execute(
                $"UPDATE {table} SET {column} = (SELECT coalesce(max({column}), 0) + 1 FROM {table} WHERE {column} BETWEEN 0 AND {most}) WHERE {column} = $number", ("$number", number));
        }

        return wrong.Count > 0;
    }

    /// <summary>A row a microsecond for 285 years.</summary>
    private const long Most = 1L << 53;
}
