using VatWatch.Store.Sql;

namespace VatWatch.Store;

/// <summary>
/// The one writer's open transaction, handed to the work of <see cref="WatchStore.WriteAsync{T}"/>. Valid only while that work runs, on
/// its thread. Capabilities write their own tables through it.
/// </summary>
public sealed class StoreTransaction
{
    private SqlSession? _sql;

    internal StoreTransaction(SqlSession sql, long run)
    {
        _sql = sql;
        Run = run;
    }

    /// <summary>Row of this start of the daemon; monotonic times of one run may be compared.</summary>
    public long Run { get; }

    /// <summary>The connection, inside the transaction.</summary>
    internal SqlSession Sql => _sql ?? throw new InvalidOperationException("A store transaction was used after its work had returned; wanted it only inside.");

    internal void End() => _sql = null;
}
