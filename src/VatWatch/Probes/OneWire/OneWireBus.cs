using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.OneWire;

/// <summary>
/// The kernel's folder of 1-wire devices. A read waits for the conversion, up to seconds, so all are made on a thread of the bus's own, one
/// after the other as the wire itself demands. Thread safe; opened and closed by one loop.
/// </summary>
internal sealed class OneWireBus(BusId id, string root, BlockingLimits limits, TimeProvider wall) : IProbeBus
{
    private readonly DeviceOwner<OneWireFolder> _owner = new($"1-wire folder {root}", watch => new OneWireFolder(root, watch), limits, wall);

    public BusId Id => id;

    public string Device => root;

    /// <summary>Threads alive, see <see cref="DeviceOwner{TDevice}.Threads"/>.</summary>
    public int Threads => _owner.Threads;

    public async ValueTask OpenAsync(CancellationToken cancel) => await _owner.OpenAsync(cancel);

    public async ValueTask CloseAsync() => await _owner.CloseAsync();

    public ValueTask DisposeAsync() => _owner.DisposeAsync();

    /// <summary>What the kernel says of the thermometer <paramref name="device"/>; null when it does not know it (any more).</summary>
    public Task<string?> ReadAsync(string device, CancellationToken cancel) => _owner.RunAsync(folder => folder.Read(device), cancel);

    /// <summary>Whether the thermometer has a supply wire of its own; null when that is not known.</summary>
    public Task<bool?> HasSupplyAsync(string device, CancellationToken cancel) => _owner.RunAsync(folder => folder.HasSupply(device), cancel);
}
