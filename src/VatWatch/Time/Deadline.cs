namespace VatWatch.Time;

/// <summary>A limit of time joined with somebody's wish to stop: its token is cancelled by whichever comes first.</summary>
public sealed class Deadline : IDisposable
{
    private readonly CancellationTokenSource _limit;
    private readonly CancellationTokenSource _either;

    /// <summary>Begins to run at once.</summary>
    public Deadline(TimeSpan limit, TimeProvider time, CancellationToken cancel)
    {
        _limit = new(limit, time);
        _either = CancellationTokenSource.CreateLinkedTokenSource(_limit.Token, cancel);
    }

    /// <summary>Cancelled by the limit or by the wish to stop.</summary>
    public CancellationToken Token => _either.Token;

    /// <summary>Whether the limit has passed.</summary>
    public bool HasPassed => _limit.IsCancellationRequested;

    public void Dispose()
    {
        _either.Dispose();
        _limit.Dispose();
    }
}
