using System.Device.I2c;

namespace VatWatch.Testing.Registers;

/// <summary>
/// An I2C adapter with chips on it, opened as often as one likes: the chips, the log and the faults stay. Counts what is open, so that a leak
/// shows. Thread safe as far as its chips are used by one thread at a time.
/// </summary>
public sealed class FakeI2cBench : IDisposable
{
    private readonly Dictionary<int, IRegisterChip> _chips = [];
    private int _open;
    private int _opened;

    /// <summary>Every transfer.</summary>
    public WireLog Log { get; } = new();

    /// <summary>What goes wrong.</summary>
    public WireFaults Faults { get; } = new();

    /// <summary>Adapters open at this moment.</summary>
    public int OpenHandles => Volatile.Read(ref _open);

    /// <summary>How often it was opened.</summary>
    public int Opened => Volatile.Read(ref _opened);

    /// <summary>False when the adapter is not there.</summary>
    public bool Present { get; set; } = true;

    /// <summary>Puts a chip on the bus.</summary>
    public FakeI2cBench With(int address, IRegisterChip chip)
    {
        _chips[address] = chip;
        return this;
    }

    /// <summary>Takes a chip off the bus.</summary>
    public void Remove(int address) => _chips.Remove(address);

    /// <summary>Opens the adapter; the seam of the bus kind.</summary>
    public I2cBus Open(int number)
    {
        if (!Present)
        {
            throw new IOException($"Error 2. Can not open I2C device file '/dev/i2c-{number}'.");
        }

        Interlocked.Increment(ref _opened);
        Interlocked.Increment(ref _open);
        return new FakeI2cBus(this, number);
    }

    public void Dispose() => Faults.Dispose();

    internal void Closed() => Interlocked.Decrement(ref _open);

    internal void Transfer(int address, ReadOnlySpan<byte> written, Span<byte> read)
    {
        try
        {
            Faults.Strike();
            if (!_chips.TryGetValue(address, out var chip))
            {
                throw new IOException("Error 121 performing I2C data transfer.");
            }

            if (!written.IsEmpty)
            {
                chip.Write(written);
            }

            if (!read.IsEmpty)
            {
                chip.Read(read);
            }

            Log.Add(address, written, read);
        }
        catch (IOException)
        {
            Log.AddFailure(address);
            throw;
        }
    }
}
