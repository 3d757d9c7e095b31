using VatWatch.Store.Sql;

namespace VatWatch.Store.Schema;

/// <summary>Looks whether every field of every table holds the kind of value that the schema says; SQLite itself keeps any kind anywhere.</summary>
internal static class FieldCheck
{
    /// <summary>One sentence a column, none when all are right.</summary>
    public static IEnumerable<string> Run(SqlSession sql) =>
        from table in sql.Query("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name", row => row.GetString(0))
        from column in sql.Query(
            $"SELECT name, type, \"notnull\" FROM pragma_table_info('{table}')", row => (Name: row.GetString(0), Type: row.GetString(1), IsRequired: row.GetInt64(2) != 0))
        where column.Type.Length > 0
        let wrong = sql.Whole($"SELECT count(*) FROM {table} WHERE {Wrong(column.Name, column.Type)}{(column.IsRequired ? "" : $" AND {column.Name} IS NOT NULL")}") ?? 0
        where wrong > 0
        select $"{wrong} {(wrong == 1 ? "row" : "rows")} of {table} hold in {column.Name} what is not {Wanted(column.Type)}; {(wrong == 1 ? "it is" : "they are")} passed over.";

    private static string Wrong(string column, string type) => type switch
    {
        "INTEGER" => $"typeof({column}) <> 'integer'",
        "REAL" => $"typeof({column}) NOT IN ('integer', 'real')",
        "BLOB" => $"typeof({column}) <> 'blob'",
        _ => $"(typeof({column}) <> 'text' OR length(CAST({column} AS BLOB)) > {StoreRow.LongestText} OR instr(CAST({column} AS BLOB), x'00') > 0)",
    };

    private static string Wanted(string type) => type switch
    {
        "INTEGER" => "a whole number",
        "REAL" => "a number",
        "BLOB" => "bytes",
        _ => $"text of at most {StoreRow.LongestText} bytes",
    };
}
