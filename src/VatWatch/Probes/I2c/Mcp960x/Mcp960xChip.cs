using Iot.Device.Mcp960x;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c.Mcp960x;

/// <summary>
/// An MCP9600 or MCP9601 thermocouple amplifier, which compensates for its cold junction itself. The library's class sets it up; its
/// temperatures are read here register by register, because the class gives −2049 °C for −1 °C and takes the difference of the junctions for
/// the hot one (measured with version 4.2.0).
/// </summary>
internal sealed class Mcp960xChip : IChip
{
    // Registers, bits and identities: the maker's register description.
    private const byte HotRegister = 0x00;
    private const byte ColdRegister = 0x02;
    private const byte StatusRegister = 0x04;
    private const byte SensorRegister = 0x05;
    private const byte DeviceRegister = 0x20;
    private const byte NewValue = 0x40;
    private const byte Shorted = 0x20;
    private const byte OpenOrOutOfRange = 0x10;

    private const double CelsiusPerCount = 0.0625;
    /// <summary>Both junctions are as warm as each other, K: some microvolts of a floating input (engineering choice, no source).</summary>
    private const double SameC = 0.25;

    private const double AbsoluteZeroC = -273.15;

    /// <summary>No thermocouple type goes higher.</summary>
    private const double HighestC = 1820;

    /// <summary>Interval of looking for a new value: a conversion of 18 bits takes 320 ms (the maker's figure).</summary>
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(40);

    /// <summary>Looks before the chip counts as stopped: 1.2 s.</summary>
    private const int Looks = 30;

    private readonly GuardedI2cDevice _device;
    private readonly Mcp960xSettings _settings;
    private readonly byte _sensor;
    private readonly bool _tellsOpen;

    public Mcp960xChip(GuardedI2cDevice device, Mcp960xSettings settings)
    {
        _device = device;
        _settings = settings;
        var identity = device.ReadWord(DeviceRegister);
        if ((DeviceIDType)(identity >> 8) is not (DeviceIDType.MCP9600 or DeviceIDType.MCP9601))
        {
            throw new WrongChipException($"it identifies itself as 0x{identity:X4}; wanted 0x40xx or 0x41xx: another chip has this address");
        }

        _tellsOpen = (DeviceIDType)(identity >> 8) == DeviceIDType.MCP9601;
        _ = new Iot.Device.Mcp960x.Mcp960x(device, thermocoupleType: settings.Type);
        _sensor = (byte)((byte)settings.Type | (byte)DigitalFilterCoefficientsType.N4);
        ForgetValue();
    }

    public Sample Read()
    {
        var sensor = _device.ReadRegister(SensorRegister);
        if (sensor != _sensor)
        {
            throw new ChipRestartedException($"its thermocouple setting is 0x{sensor:X2} where 0x{_sensor:X2} was written; check its supply, and that no other program uses it");
        }

        if (!TryAwaitValue(out var status))
        {
            return Sample.Missing("the MCP960x has stopped converting; check its supply");
        }

        var celsius = _device.ReadSigned(_settings.ColdJunction ? ColdRegister : HotRegister) * CelsiusPerCount;
        var sample = _settings.ColdJunction ? Cold(celsius) : Doubted(Hot(celsius, status));
        ForgetValue();
        return sample;
    }

    /// <summary>
    /// An MCP9600 does not tell an open circuit (the maker's comparison of the two), whose floating input may read as no voltage: the hot junction is then as warm as
    /// the cold one. So is a thermocouple in a vat as warm as its box, but such a vat is not ready either.
    /// </summary>
    private Sample Doubted(Sample hot)
    {
        if (_tellsOpen || hot is not { Quality: Quality.Good, Value: { } celsius })
        {
            return hot;
        }

        return Math.Abs(celsius - _device.ReadSigned(ColdRegister) * CelsiusPerCount) <= SameC
            ? Sample.Suspect(celsius, "as warm as the MCP9600 itself, which cannot tell when its thermocouple is open; check its wires, or take an MCP9601")
            : hot;
    }

    private static Sample Cold(double celsius) => celsius is >= -40 and <= 125
        ? Sample.Good(celsius)
        : Sample.Fault($"the MCP960x says {celsius:0.0} °C of itself; wanted -40 to 125 °C, for which it is made");

    private static Sample Hot(double celsius, byte status) => status switch
    {
        _ when (status & Shorted) != 0 => Sample.Fault("thermocouple shorted to the supply or to ground; check its wires and that its junction is insulated"),
        _ when (status & OpenOrOutOfRange) != 0 => Sample.Fault("thermocouple circuit open, or its voltage outside the range of its type; check its wires and their polarity"),
        _ when celsius is > AbsoluteZeroC and <= HighestC => Sample.Good(celsius),
        _ => Sample.Fault($"the MCP960x says {celsius:0.0} °C, which no thermocouple gives"),
    };

    /// <summary>Waits for a conversion that ended after the last reading, so that a chip that has stopped is not read for ever.</summary>
    private bool TryAwaitValue(out byte status)
    {
        for (var look = 0; look < Looks; look++)
        {
            status = _device.ReadRegister(StatusRegister);
            if ((status & NewValue) != 0)
            {
                return true;
            }

            _device.Pause(Look);
        }

        status = 0;
        return false;
    }

    private void ForgetValue() => _device.Write([StatusRegister, 0]);
}
