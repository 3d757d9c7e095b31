using Microsoft.Data.Sqlite;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Disk;

/// <summary>
/// The reading connections of a store that is held. The last one that was given back is kept for whoever reads next, since a new one first reads the schema, which takes
/// longer than most reads do. It keeps no lock and nothing of the file but the schema. Thread safe.
/// </summary>
internal sealed class SpareReader(StoreFile file) : IDisposable
{
    private SqlSession? _spare;
    private volatile bool _isClosed;

    /// <summary>The connection that was kept, where the file under its name is still the same, or a new one. Throws as <see cref="StoreFile.OpenForReading"/>.</summary>
    public SqlSession Take()
    {
        var spare = Interlocked.Exchange(ref _spare, null);
        if (spare is not null && spare.HasMoved())
        {
            spare.Dispose();
            spare = null;
        }

        return file.OpenForReading(spare);
    }

    /// <summary>Keeps a connection that nobody reads from any more, or closes it.</summary>
    public void GiveBack(SqlSession sql)
    {
        if (sql.IsSnapshot || sql.IsReading || !TryShrink(sql) || Interlocked.CompareExchange(ref _spare, sql, null) is not null)
        {
            sql.Dispose();
        }
        else if (_isClosed)
        {
            Drop();
        }
    }

    /// <summary>Closes the one that is kept; none is kept from here on.</summary>
    public void Dispose()
    {
        _isClosed = true;
        Drop();
    }

    private void Drop() => Interlocked.Exchange(ref _spare, null)?.Dispose();

    /// <summary>Lets go of the pages that were read; false where the file cannot be read any more.</summary>
    private static bool TryShrink(SqlSession sql)
    {
        try
        {
            sql.Execute("PRAGMA shrink_memory");
            return true;
        }
        catch (SqliteException)
        {
            return false;
        }
    }
}
