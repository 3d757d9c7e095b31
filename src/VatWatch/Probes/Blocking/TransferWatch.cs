namespace VatWatch.Probes.Blocking;

/// <summary>
/// Stands between the driver libraries and a device: knows whether a transfer is under way and since when, repeats a failed one once, and
/// refuses every further one when the device was given up, so that an abandoned call ends at its next transfer. Thread safe; transfers
/// come from one thread.
/// </summary>
internal sealed class TransferWatch(TimeProvider wall)
{
    private const long None = long.MinValue;

    private readonly object _gate = new();
    private bool _givenUp;
    private long _began = None;

    /// <summary>A transfer in both directions; either side may be empty.</summary>
    public delegate void Transfer(ReadOnlySpan<byte> written, Span<byte> read);

    /// <summary>How long the transfer under way has taken; zero when there is none.</summary>
    public TimeSpan Running => Interlocked.Read(ref _began) is var began && began != None ? wall.GetElapsedTime(began) : TimeSpan.Zero;

    /// <summary>Makes one transfer, and once more if it fails at once. Every transfer here is a register access that may be repeated.</summary>
    public void Run(Transfer transfer, ReadOnlySpan<byte> written, Span<byte> read)
    {
        try
        {
            RunOnce(transfer, written, read);
        }
        catch (IOException error) when (TransferError.MayRepeat(error))
        {
            RunOnce(transfer, written, read);
        }
    }

    /// <summary>Lets the chip work for <paramref name="length"/>; ends early, with an exception, when the device was given up.</summary>
    public void Pause(TimeSpan length)
    {
        lock (_gate)
        {
            if (!_givenUp)
            {
                Monitor.Wait(_gate, length);
            }
        }

        ThrowIfGivenUp();
    }

    /// <summary>Refuses everything from now on.</summary>
    public void GiveUp()
    {
        lock (_gate)
        {
            _givenUp = true;
            Monitor.PulseAll(_gate);
        }
    }

    private void RunOnce(Transfer transfer, ReadOnlySpan<byte> written, Span<byte> read)
    {
        ThrowIfGivenUp();
        Interlocked.Exchange(ref _began, wall.GetTimestamp());
        try
        {
            transfer(written, read);
        }
        finally
        {
            Interlocked.Exchange(ref _began, None);
        }
    }

    private void ThrowIfGivenUp()
    {
        if (Volatile.Read(ref _givenUp))
        {
            throw new OperationCanceledException("the device was given up");
        }
    }
}

/// <summary>How long the blocking calls on a device may take before the device is given up.</summary>
/// <param name="Transfer">One transfer. A call stuck in one is noticed after one to two times this.</param>
/// <param name="Call">A whole call: every transfer and pause of one sample.</param>
/// <param name="Close">Closing; afterwards the thread is left to end by itself.</param>
internal sealed record BlockingLimits(TimeSpan Transfer, TimeSpan Call, TimeSpan Close)
{
    /// <summary>
    /// For I2C and SPI. Linux adapters end a transfer by themselves after 1 s (their usual default, from memory), so 2 s is a driver that
    /// hangs; the slowest sample of ours, two attempts at an electrode board, needs 1.6 s.
    /// </summary>
    public static BlockingLimits Wire { get; } = new(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(8), TimeSpan.FromSeconds(2));

    /// <summary>For 1-wire: the kernel tries five times before it answers, each attempt up to 750 ms.</summary>
    public static BlockingLimits OneWire { get; } = new(TimeSpan.FromSeconds(8), TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(2));
}
