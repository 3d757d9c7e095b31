using VatWatch.Store.Series;

namespace VatWatch.Store;

/// <summary>How far somebody has followed the readings. Start from <see cref="Beginning"/>; keep it as its two numbers.</summary>
/// <param name="Key">Largest row id that was seen.</param>
/// <param name="Late">Largest entry of the list of late rows that was seen.</param>
public readonly record struct StoreCursor(long Key, long Late)
{
    /// <summary>Nothing seen yet.</summary>
    public static StoreCursor Beginning { get; } = new(long.MinValue, 0);

    /// <summary>
    /// Rows after a cursor. A late row was filed below the largest id of its time: it is delivered from the list when this follower has
    /// passed its id, and otherwise met on the way up. Both reads are of one snapshot, or a row committed between them could be missed.
    /// </summary>
    internal static (IReadOnlyList<StoredMeasurement>, StoreCursor) Read(StoreReader reader, StoreCursor cursor, int max)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(max, 1);
        reader.Sql.Execute("BEGIN");
        try
        {
            var late = reader.Sql.Query(
                "SELECT seq, measurement FROM late WHERE seq > $seq AND measurement <= $key ORDER BY seq LIMIT $max",
                row => (Seq: row.GetInt64(0), Key: row.GetInt64(1)),
                ("$seq", cursor.Late),
                ("$key", cursor.Key),
                ("$max", (long)max));
            var rows = late
                .SelectMany(entry => reader.Stream($"SELECT {MeasurementContextCache.Columns} FROM measurement WHERE id = $id", ("$id", entry.Key)))
                .ToList();
            var next = cursor with { Late = late.Count == 0 ? cursor.Late : late[^1].Seq };
            if (late.Count < max)
            {
                next = next with { Late = Math.Max(next.Late, reader.Sql.Whole("SELECT max(seq) FROM late") ?? 0) };
                var newer = reader.Stream(
                    $"SELECT {MeasurementContextCache.Columns} FROM measurement WHERE id > $key ORDER BY id LIMIT $max",
                    ("$key", cursor.Key),
                    ("$max", (long)(max - rows.Count))).ToList();
                rows.AddRange(newer);
                next = next with { Key = newer.Count == 0 ? cursor.Key : newer[^1].Key };
            }

            return (rows, next);
        }
        finally
        {
            reader.Sql.Execute("COMMIT");
        }
    }
}
