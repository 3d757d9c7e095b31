using Microsoft.Data.Sqlite;
using SQLitePCL;
using VatWatch.Store.Schema;
using VatWatch.Store.Sql;

namespace VatWatch.Tests.Store.Sql;

public sealed class SqlSessionTests : IDisposable
{
    private const string Numbers = "SELECT id, number FROM dye ORDER BY id";
    private readonly string _file = Path.Combine(Path.GetTempPath(), $"sql-session-{Guid.NewGuid():n}.db");
    private readonly UnreadableRows _unreadable = new();
    private readonly SqlSession _sql;

    public SqlSessionTests()
    {
        _sql = Open(_unreadable);
        _sql.ExecuteAll("PRAGMA journal_mode = WAL; CREATE TABLE dye (id INTEGER PRIMARY KEY, number); INSERT INTO dye VALUES (1, 10), (2, 20), (3, 30);");
    }

    [Fact]
    public void Rows_are_read_while_other_statements_and_the_same_one_run()
    {
        var seen = new List<(long, long)>();
        foreach (var outer in _sql.Stream(Numbers, Number))
        {
            Assert.Equal([10, 20, 30], _sql.Query(Numbers, Number));
            seen.AddRange(_sql.Stream(Numbers, Number).Select(inner => (outer, inner)));
        }

        Assert.Equal(9, seen.Distinct().Count());
    }

    [Fact]
    public void A_query_inside_its_own_rows_is_refused_and_can_be_asked_again()
    {
        Assert.Throws<InvalidOperationException>(() => _sql.Query(Numbers, _ => _sql.Query(Numbers, Number)));
        Assert.Equal([10, 20, 30], _sql.Query(Numbers, Number));
    }

    [Fact]
    public void Rows_that_are_left_half_read_hold_nothing()
    {
        Assert.Equal(10, _sql.Stream(Numbers, Number).First());
        Assert.Throws<NotSupportedException>(() => _sql.Query<long>(Numbers, _ => throw new NotSupportedException()));

        // No table can be dropped while a statement of the connection stands on a row, nor can the log be emptied.
        using var other = Open();
        other.Execute("INSERT INTO dye VALUES (4, 40)");
        Assert.Equal(0L, _sql.Whole("PRAGMA wal_checkpoint(TRUNCATE)"));
        _sql.Execute("DROP TABLE dye");
    }

    [Fact]
    public void A_kept_statement_follows_a_change_of_the_schema()
    {
        Assert.Equal([10, 20, 30], _sql.Query(Numbers, Number));
        using var other = Open();
        other.ExecuteAll("ALTER TABLE dye ADD COLUMN more; DROP TABLE dye; CREATE TABLE dye (number, filler, id INTEGER PRIMARY KEY); INSERT INTO dye VALUES (7, 8, 9);");

        Assert.Equal([(9, 7)], _sql.Query(Numbers, row => (row.GetInt64("id"), row.GetInt64("number"))));
    }

    [Fact]
    public void A_row_of_the_wrong_kind_is_passed_over_and_told_in_a_query_and_in_a_stream()
    {
        _sql.Execute("UPDATE dye SET number = 'woad' WHERE id = 2");

        Assert.Equal([10, 30], _sql.Query(Numbers, Number));
        Assert.Equal([10, 30], _sql.Stream(Numbers, Number));
        Assert.Equal(["A row of dye (id 2, number woad) cannot be read and is passed over: number is other text; wanted a whole number."], _unreadable.Sentences);
    }

    [Fact]
    public void A_column_or_a_parameter_that_the_statement_lacks_is_a_mistake_and_no_damaged_row()
    {
        Assert.Throws<InvalidOperationException>(() => _sql.Query(Numbers, row => row.GetInt64("shade")));
        Assert.Throws<InvalidOperationException>(() => _sql.Query(Numbers, Number, ("$shade", 1L)));
        Assert.Throws<InvalidOperationException>(() => _sql.Stream(Numbers, Number, ("$shade", 1L)).ToList());
        Assert.Empty(_unreadable.Sentences);
    }

    [Fact]
    public void A_lock_is_waited_for_and_then_told_with_its_code()
    {
        _sql.Execute("PRAGMA journal_mode = DELETE");
        using var other = Open();
        other.Execute("BEGIN EXCLUSIVE");
        var began = System.Diagnostics.Stopwatch.GetTimestamp();

        Assert.Equal(raw.SQLITE_BUSY, Assert.Throws<SqliteException>(() => _sql.Query(Numbers, Number)).SqliteErrorCode);
        Assert.Equal(raw.SQLITE_BUSY, Assert.Throws<SqliteException>(() => _sql.Stream(Numbers, Number).ToList()).SqliteErrorCode);

        Assert.InRange(System.Diagnostics.Stopwatch.GetElapsedTime(began).TotalMilliseconds, 2 * 0.8 * BusyMilliseconds, 60_000);
        other.Execute("COMMIT");
        Assert.Equal([10, 20, 30], _sql.Query(Numbers, Number));
    }

    [Fact]
    public void What_is_no_statement_or_breaks_a_rule_is_told_with_its_code()
    {
        Assert.Equal(raw.SQLITE_ERROR, Assert.Throws<SqliteException>(() => _sql.Query("SELECT id FROM madder", Number)).SqliteErrorCode);
        Assert.Equal(raw.SQLITE_CONSTRAINT, Assert.Throws<SqliteException>(() => _sql.Query("INSERT INTO dye VALUES (1, 1) RETURNING id, number", Number)).SqliteErrorCode);
        Assert.Equal(raw.SQLITE_CONSTRAINT, Assert.Throws<SqliteException>(() => _sql.ExecuteAll("INSERT INTO dye VALUES (4, 1); INSERT INTO dye VALUES (4, 1);")).SqliteErrorCode);
        Assert.Equal(4, _sql.Whole("SELECT count(*) FROM dye"));
    }

    public void Dispose()
    {
        _sql.Dispose();
        foreach (var file in Directory.EnumerateFiles(Path.GetTempPath(), $"{Path.GetFileName(_file)}*"))
        {
            File.Delete(file);
        }
    }

    private static long Number(StoreRow row) => row.GetInt64(1);

    private SqlSession Open(UnreadableRows? unreadable = null)
    {
        var connection = new SqliteConnection($"Data Source={_file};Pooling=False");
        connection.Open();
        raw.sqlite3_busy_timeout(connection.Handle, BusyMilliseconds);
        return new(connection, unreadable);
    }

    private const int BusyMilliseconds = 150;
}
