using System.Device.I2c;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>The bus kind <c>i2c</c>. Settings: <c>bus</c>, the number of the adapter, 0 to 31 (default 1, as on a Raspberry Pi's header).</summary>
public sealed class I2cBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "i2c";

    /// <summary>Opens adapters, by default those of this computer; throws <see cref="BusLostException"/> or <see cref="IOException"/> when there is none.</summary>
    internal Func<int, I2cBus> Open { get; init; } = OpenAdapter;

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var number = node.Whole("bus", 0, 31, 1);
        return new(id, Word, _ => Bus(id, number, BlockingLimits.Wire, TimeProvider.System));
    }

    internal BlockingBus<I2cWire> Bus(BusId id, int number, BlockingLimits limits, TimeProvider wall) =>
        new(id, $"I2C bus {number}", watch => new I2cWire(Open(number), watch), limits, wall);

    private static I2cBus OpenAdapter(int number)
    {
        var path = $"/dev/i2c-{number}";
        if (!File.Exists(path))
        {
            throw new BusLostException($"there is no {path}; wanted an I2C adapter: switch the interface on, or plug it in");
        }

        try
        {
            return I2cBus.Create(number);
        }
        catch (IOException e)
        {
            throw new BusLostException($"{path} cannot be opened ({e.Message.TrimEnd('.')}); wanted the right to use it: membership of the group that owns it", e);
        }
    }
}
