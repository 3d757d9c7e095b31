namespace VatWatch.Testing.Registers;

/// <summary>What goes wrong on a fake bus: failing transfers at random or by number, and a transfer that hangs. Thread safe.</summary>
public sealed class WireFaults : IDisposable
{
    private readonly Lock _gate = new();
    private readonly ManualResetEventSlim _free = new(true);
    private readonly HashSet<long> _failing = [];
    private readonly Random _random;
    private long _transfers;
    private int _stuck;

    /// <summary>Failures drawn from <paramref name="seed"/>.</summary>
    public WireFaults(int seed = 20260301) => _random = new Random(seed);

    /// <summary>Share of transfers that fail.</summary>
    public double Probability { get; set; }

    /// <summary>What Linux says when no chip acknowledges.</summary>
    public string Message { get; set; } = "Error 121 performing I2C data transfer.";

    /// <summary>Transfers so far.</summary>
    public long Transfers => Interlocked.Read(ref _transfers);

    /// <summary>Transfers that hang at this moment.</summary>
    public int Stuck => Volatile.Read(ref _stuck);

    /// <summary>Lets the transfer after next <paramref name="further"/> ones fail; 0 is the next.</summary>
    public void FailAfter(int further)
    {
        lock (_gate)
        {
            _failing.Add(Transfers + further);
        }
    }

    /// <summary>Transfers hang from now on.</summary>
    public void Hang() => _free.Reset();

    /// <summary>Lets all that hang go on.</summary>
    public void LetGo() => _free.Set();

    public void Dispose()
    {
        LetGo();
        _free.Dispose();
    }

    /// <summary>Called by the fakes before each transfer.</summary>
    internal void Strike()
    {
        var number = Interlocked.Increment(ref _transfers) - 1;
        if (!_free.IsSet)
        {
            Interlocked.Increment(ref _stuck);
            _free.Wait();
            Interlocked.Decrement(ref _stuck);
        }

        lock (_gate)
        {
            if (_failing.Remove(number) || (Probability > 0 && _random.NextDouble() < Probability))
            {
                throw new IOException(Message);
            }
        }
    }
}
