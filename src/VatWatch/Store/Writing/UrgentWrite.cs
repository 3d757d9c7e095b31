namespace VatWatch.Store.Writing;

/// <summary>One piece of work waiting for the writer. It runs at most once, and whoever waits for it is answered exactly once.</summary>
internal sealed class UrgentWrite(Action<StoreTransaction> work, Action complete, Action<Exception> fail, bool withReadings = false)
{
    private int _state;

    /// <summary>Whether every reading that waits goes to the disk with it. An alarm goes alone: it is told when it is on disk, and readings make that later.</summary>
    public bool WithReadings => withReadings;

    /// <summary>Claims the work for the writer; false when the waiter has given it up.</summary>
    public bool TryStart() => Interlocked.CompareExchange(ref _state, Started, Waiting) == Waiting;

    /// <summary>Gives the work up; false when the writer has begun it.</summary>
    public bool TryAbandon() => Interlocked.CompareExchange(ref _state, Abandoned, Waiting) == Waiting;

    /// <summary>Runs the work inside the open transaction.</summary>
    public void Run(StoreTransaction transaction) => work(transaction);

    /// <summary>Answers the waiter: it is on disk.</summary>
    public void Complete() => complete();

    /// <summary>Answers the waiter: it is not.</summary>
    public void Fail(Exception reason) => fail(reason);

    private const int Waiting = 0;
    private const int Started = 1;
    private const int Abandoned = 2;
}
