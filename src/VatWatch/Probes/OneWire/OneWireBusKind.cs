using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.OneWire;

/// <summary>
/// The bus kind <c>onewire</c>: the thermometers that Linux finds on its 1-wire pin. Settings: <c>root</c>, the folder in which the kernel shows
/// them (default /sys/bus/w1/devices).
/// </summary>
public sealed class OneWireBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "onewire";

    /// <summary>Where Linux shows 1-wire devices.</summary>
    public const string UsualRoot = "/sys/bus/w1/devices";

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var root = node.OptionalText("root", "a folder", UsualRoot)!;
        return new(id, Word, _ => Bus(id, root, TimeProvider.System));
    }

    /// <summary>A read waits for the conversion, up to seconds; all are made one after the other, as the wire itself demands.</summary>
    internal static BlockingBus<OneWireFolder> Bus(BusId id, string root, TimeProvider wall) =>
        new(id, $"1-wire folder {root}", watch => new OneWireFolder(root, watch), BlockingLimits.OneWire, wall) { Device = root };
}
