namespace VatWatch.Probes.Blocking;

/// <summary>
/// Tells a silent chip from a silent bus: the bus is silent when each of its chips has failed several samples in a row. Thread safe.
/// </summary>
internal sealed class ChipTally
{
    /// <summary>Samples in a row that each chip must fail. One could be chance; a few cost little, as each is reported as a fault anyway.</summary>
    public const int Patience = 3;

    private readonly Lock _gate = new();
    private readonly Dictionary<int, int> _failures = [];

    public void Expect(int address)
    {
        lock (_gate)
        {
            _failures.TryAdd(address, 0);
        }
    }

    /// <summary>Begins anew, as after opening the bus.</summary>
    public void Clear()
    {
        lock (_gate)
        {
            foreach (var address in _failures.Keys)
            {
                _failures[address] = 0;
            }
        }
    }

    /// <summary>Counts one sample; true when by now the whole bus is silent.</summary>
    public bool IsSilentAfter(int address, bool answered)
    {
        lock (_gate)
        {
            _failures[address] = answered ? 0 : _failures.GetValueOrDefault(address) + 1;
            return _failures.Values.All(failures => failures >= Patience);
        }
    }
}
