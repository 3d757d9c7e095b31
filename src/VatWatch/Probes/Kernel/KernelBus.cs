using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Kernel;

/// <summary>
/// The kernel's files of measured values. Reading one may make the kernel talk to a chip and wait for it, so all are read on a thread of the
/// bus's own. Thread safe; opened and closed by one loop.
/// </summary>
internal sealed class KernelBus(BusId id, BlockingLimits limits, TimeProvider wall) : IProbeBus
{
    private readonly DeviceOwner<KernelFiles> _owner = new("the kernel's files", watch => new KernelFiles(watch, wall), limits, wall);

    public BusId Id => id;

    public string Device => "the kernel's files";

    public async ValueTask OpenAsync(CancellationToken cancel) => await _owner.OpenAsync(cancel);

    public async ValueTask CloseAsync() => await _owner.CloseAsync();

    public ValueTask DisposeAsync() => _owner.DisposeAsync();

    /// <summary>Reads by <paramref name="read"/> on the bus's thread.</summary>
    public Task<Sample> ReadAsync(Func<KernelFiles, Sample> read, CancellationToken cancel) => _owner.RunAsync(read, cancel);
}
