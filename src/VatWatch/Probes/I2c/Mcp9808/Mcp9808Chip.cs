using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c.Mcp9808;

/// <summary>
/// An MCP9808 thermometer, read register by register. The library's class for it refuses every revision of the chip but the first, cannot say
/// what it saw instead, and throws on a register that reads as all ones.
/// </summary>
internal sealed class Mcp9808Chip : IChip
{
    // Registers and identity: the maker's register description.
    private const byte ConfigurationRegister = 0x01;
    private const byte TemperatureRegister = 0x05;
    private const byte MakerRegister = 0x06;
    private const byte DeviceRegister = 0x07;
    private const ushort Maker = 0x0054;
    private const byte Kind = 0x04;
    private const ushort Shutdown = 0x0100;

    /// <summary>A conversion at full resolution takes 250 ms typically (the maker's figure); with room for a slow part.</summary>
    private static readonly TimeSpan Conversion = TimeSpan.FromMilliseconds(320);

    private readonly GuardedI2cDevice _device;

    public Mcp9808Chip(GuardedI2cDevice device)
    {
        _device = device;
        var maker = device.ReadWord(MakerRegister);
        var kind = device.ReadWord(DeviceRegister);
        if (maker != Maker || kind >> 8 != Kind)
        {
            throw new WrongChipException(
                $"it identifies itself as maker 0x{maker:X4}, device 0x{kind:X4}; wanted maker 0x{Maker:X4}, device 0x04xx: another chip has this address");
        }

        if ((device.ReadWord(ConfigurationRegister) & Shutdown) != 0)
        {
            device.Write([ConfigurationRegister, 0, 0]);
            device.Pause(Conversion);
        }
    }

    public Sample Read()
    {
        var word = _device.ReadWord(TemperatureRegister);
        if (word == 0)
        {
            // So it reads as well after power-up, before the first conversion has ended (from memory).
            _device.Pause(Conversion);
            word = _device.ReadWord(TemperatureRegister);
            if (word == 0 && _device.ReadWord(MakerRegister) != Maker)
            {
                return Sample.Fault("the MCP9808's registers read as zeros; check the wire SDA for a contact with ground");
            }
        }

        if (word == 0xFFFF)
        {
            return Sample.Fault("the MCP9808's temperature register reads as all ones; check its supply and the wire SDA");
        }

        // Bits 15 to 13 tell of limits that we do not set; 12 is the sign, the rest sixteenths of a degree.
        var celsius = (word & 0x0FFF) / 16.0 - ((word & 0x1000) != 0 ? 256 : 0);
        return celsius is >= -40 and <= 125
            ? Sample.Good(celsius)
            : Sample.Fault($"the MCP9808 says {celsius:0.0} °C; wanted -40 to 125 °C, for which it is made");
    }
}
