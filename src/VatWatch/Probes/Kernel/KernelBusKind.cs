using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Kernel;

/// <summary>The bus kind <c>kernel</c>: files in which Linux shows what its own drivers measure. No settings.</summary>
public sealed class KernelBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "kernel";

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node) => new(id, Word, _ => new KernelBus(id, BlockingLimits.Wire, TimeProvider.System));
}
