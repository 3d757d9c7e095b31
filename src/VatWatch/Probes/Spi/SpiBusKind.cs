using System.Device.Spi;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Spi;

/// <summary>
/// The bus kind <c>spi</c>: one chip. Settings: <c>bus</c> 0 to 31 and <c>chipSelect</c> 0 to 31, as in /dev/spidevBUS.CHIPSELECT (both 0 by default).
/// </summary>
public sealed class SpiBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "spi";

    /// <summary>Slow enough for long wires; the chips allow 5 MHz and a reading is a few bytes.</summary>
    private const int ClockHertz = 500_000;

    /// <summary>Opens devices, by default those of this computer; throws <see cref="BusLostException"/> or <see cref="IOException"/> when there is none.</summary>
    internal Func<SpiConnectionSettings, SpiDevice> Open { get; init; } = OpenDevice;

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var settings = SettingsOf(node.Whole("bus", 0, 31, 0), node.Whole("chipSelect", 0, 31, 0));
        return new(id, Word, _ => new BlockingBus<GuardedSpiDevice>(
            id, $"SPI bus {settings.BusId}, chip select {settings.ChipSelectLine}", watch => new GuardedSpiDevice(Open(settings), watch), BlockingLimits.Wire, TimeProvider.System));
    }

    /// <summary>Mode 1, highest bit first.</summary>
    internal static SpiConnectionSettings SettingsOf(int bus, int chipSelect) => new(bus, chipSelect)
    {
        Mode = SpiMode.Mode1,
        ClockFrequency = ClockHertz,
        DataBitLength = 8,
        DataFlow = DataFlow.MsbFirst,
    };

    private static SpiDevice OpenDevice(SpiConnectionSettings settings)
    {
        // The library opens the node only at the first transfer.
        var path = $"/dev/spidev{settings.BusId}.{settings.ChipSelectLine}";
        return File.Exists(path)
            ? SpiDevice.Create(settings)
            : throw new BusLostException($"there is no {path}; wanted an SPI device: switch the interface on");
    }
}
