using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Kernel;

/// <summary>The bus kind <c>kernel</c>: files in which Linux shows what its own drivers measure; reading one may make it wait for a chip. No settings.</summary>
public sealed class KernelBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "kernel";

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node) => new(
        id, Word, _ => new BlockingBus<KernelFiles>(id, "the kernel's files", watch => new KernelFiles(watch, TimeProvider.System), BlockingLimits.Wire, TimeProvider.System));
}
