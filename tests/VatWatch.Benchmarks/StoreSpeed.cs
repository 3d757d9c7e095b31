using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Benchmarks;

/// <summary>Writing against a bare insert of the same rows, and columns of a day with a year stored against the same with a day.</summary>
internal static class StoreSpeed
{
    private const int Probes = 6;
    private const int PerCommit = 2000;
    private static readonly DateTimeOffset Start = new(2031, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly VatId Vat = new("still");

    /// <summary>Rows a second of the store, rollups included, against rows a second of one table filled by prepared inserts in batches of the same size.</summary>
    public static async Task MeasureWritingAsync(Table table)
    {
        using var studio = new BenchStudio();
        List<Measurement> rows = [.. Readings(0, 400_000)];
        var bare = Bare(Path.Combine(studio.Folder, "bare.db"), rows.Count);
        var full = await FillAsync(Path.Combine(studio.Folder, "full"), rows);
        table.Ratio("time to store 400,000 readings, bare batched insert", full, bare, "s", 2);
    }

    /// <summary>Columns of the last day, with that day stored and with a year; and a year's columns. VATWATCH_BENCH_YEAR_DAYS shortens the year.</summary>
    public static async Task MeasureColumnsAsync(Table table)
    {
        var days = int.Parse(Environment.GetEnvironmentVariable("VATWATCH_BENCH_YEAR_DAYS") ?? "365", CultureInfo.InvariantCulture);
        using var studio = new BenchStudio();
        var (day, year) = (Path.Combine(studio.Folder, "day"), Path.Combine(studio.Folder, "year"));
        const int PerDay = 86_400 / 10 * Probes;
        await FillAsync(day, Readings((days - 1) * PerDay, PerDay));
        await FillAsync(year, Readings(0, days * PerDay));
        var (from, to) = (Start.AddDays(days - 1), Start.AddDays(days));
        table.Ratio("columns of 24 h, a year stored against a day", Columns(year, from, to), Columns(day, from, to), "ms", 1.5);
        table.Ratio("columns of a year from rollups, against 300 ms", Columns(year, Start, to), 300, "ms", 1);
    }

    private static double Columns(string folder, DateTimeOffset from, DateTimeOffset to)
    {
        var times = new List<double>();
        for (var round = 0; round < 15; round++)
        {
            var began = Stopwatch.GetTimestamp();
            using var reader = StoreReader.OpenFolder(folder);
            var columns = reader.Columns(Vat, from, to, 700, _ => TimeSpan.FromMinutes(1));
            times.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
            if (columns.Count != Probes)
            {
                throw new InvalidOperationException($"{columns.Count} probes; wanted {Probes}");
            }
        }

        return times.Order().ElementAt(times.Count / 2);
    }

    private static IEnumerable<Measurement> Readings(int first, int count) => Enumerable.Range(first, count).Select(n =>
    {
        var at = TimeSpan.FromMilliseconds(n / Probes * 10_000L + n % Probes * 37);
        var value = Math.Round(40 + n % 1009 / 100.0, 2);
        return new Measurement(Vat, new ProbeId($"p{n % Probes}"), Quantity.Temperature, new Stamp(Start + at, at, true), value, value, Quality.Good, null, null);
    });

    /// <summary>Fills a store through its front door; seconds it took.</summary>
    private static async Task<double> FillAsync(string folder, IEnumerable<Measurement> rows)
    {
        await using var store = WatchStore.Open(folder, new StoreOptions { SizeLimitMegabytes = 1_000_000 }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        var began = Stopwatch.GetTimestamp();
        foreach (var batch in rows.Chunk(PerCommit))
        {
            foreach (var row in batch)
            {
                store.Enqueue(row);
            }

            await store.FlushAsync(CancellationToken.None);
        }

        return Stopwatch.GetElapsedTime(began).TotalSeconds;
    }

    /// <summary>One table with the same facts in plain columns, the same settings of the file, the same batches; seconds it took.</summary>
    public static double Bare(string file, int count)
    {
        List<Measurement> rows = [.. Readings(0, count)];
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        Run(connection, "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE m (id INTEGER PRIMARY KEY, probe TEXT, monotonic INTEGER, raw REAL, value REAL, quality INTEGER)");
        using var insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO m VALUES ($id, $probe, $monotonic, $raw, $value, $quality)";
        var parameters = new[] { "$id", "$probe", "$monotonic", "$raw", "$value", "$quality" }.Select(name => insert.Parameters.Add(new SqliteParameter { ParameterName = name })).ToArray();
        var began = Stopwatch.GetTimestamp();
        var id = 0L;
        foreach (var batch in rows.Chunk(PerCommit))
        {
            Run(connection, "BEGIN");
            foreach (var row in batch)
            {
                object[] values = [row.Stamp.Utc.UtcTicks * 10 + id++ % 10, row.Probe.Value, row.Stamp.Monotonic.Ticks, row.Raw!.Value, row.Value!.Value, (int)row.Quality];
                for (var i = 0; i < values.Length; i++)
                {
                    parameters[i].Value = values[i];
                }

                insert.ExecuteNonQuery();
            }

            Run(connection, "COMMIT");
        }

        return Stopwatch.GetElapsedTime(began).TotalSeconds;
    }

    private static void Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
