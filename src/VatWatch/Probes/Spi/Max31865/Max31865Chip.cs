using Iot.Device.Max31865;
using UnitsNet;
using VatWatch.Probes.Blocking;
using VatWatch.Science.Thermometry;

namespace VatWatch.Probes.Spi.Max31865;

/// <summary>
/// A platinum thermometer behind an MAX31865. The library's class runs the conversion; the result is taken from the chip and turned into a
/// temperature by IEC 60751, because the class drops the fault bit and approximates. The faults are read after every conversion.
/// </summary>
#pragma warning disable CA1001 // The device belongs to the bus, and the library's chip holds nothing else.
internal sealed class Max31865Chip : IChip
#pragma warning restore CA1001
{
    // Registers and bits: the maker's register description.
    private const byte ConfigurationRegister = 0x00;
    private const byte ResistanceRegister = 0x01;
    private const byte SettingsMask = 0x11;
    private const byte ThreeWires = 0x10;
    private const byte FiftyHertz = 0x01;
    private const byte FaultBit = 0x01;
    private const double FullScale = 32768;

    private readonly GuardedSpiDevice _device;
    private readonly Max31865Settings _settings;
    private readonly Iot.Device.Max31865.Max31865 _chip;
    private readonly byte _wanted;

    public Max31865Chip(GuardedSpiDevice device, Max31865Settings settings)
    {
        _device = device;
        _settings = settings;
        _wanted = (byte)((settings.Wires == ResistanceTemperatureDetectorWires.ThreeWire ? ThreeWires : 0)
            | (settings.Filter == ConversionFilterMode.Filter50Hz ? FiftyHertz : 0));
        _chip = new Iot.Device.Max31865.Max31865(
            device, settings.Element, settings.Wires, ElectricResistance.FromOhms(settings.ReferenceOhm), settings.Filter, shouldDispose: false);
    }

    public Sample Read()
    {
        _ = _chip.Temperature;
        var word = _device.ReadRegisters(ResistanceRegister, 2);
        var faults = _chip.Faults;
        var seen = _device.ReadRegisters(ConfigurationRegister, 1)[0];
        if ((seen & SettingsMask) != _wanted || seen == byte.MaxValue)
        {
            throw new ChipRestartedException(seen == byte.MaxValue
                ? "it sends only ones: nothing drives the wire MISO; check the wiring and the chip select"
                : $"its configuration is 0x{seen:X2} where 0x{_wanted:X2} was written; check its supply, its wiring and the chip select");
        }

        if (Words(faults) is { } words)
        {
            return Sample.Fault(words);
        }

        return (word[1] & FaultBit) != 0
            ? Sample.Fault("the MAX31865 marks its reading as faulty without saying why")
            : Temperature(((word[0] << 8) | word[1]) >> 1);
    }

    private Sample Temperature(int code)
    {
        var ohm = code / FullScale * _settings.ReferenceOhm;
        try
        {
            var temperature = PlatinumResistance.TemperatureC(ohm, (int)_settings.Element);
            if (!temperature.Extrapolated)
            {
                return Sample.Good(temperature.Value);
            }
        }
        catch (ArgumentOutOfRangeException)
        {
            // No temperature gives this resistance; it is told below.
        }

        return Sample.Fault(ohm < (int)_settings.Element
            ? $"platinum element shorted, or the chip silent: {ohm:0.0} Ω"
            : $"platinum element's circuit open, or the reference resistor another: {ohm:0.0} Ω");
    }

    private static string? Words(FaultStatus faults) => faults switch
    {
        { HighThreshold: true } => "platinum element's circuit open: its resistance is at the upper end; check its wires",
        { LowThreshold: true } => "platinum element shorted: its resistance is at the lower end; check its wires",
        { OverUnderVoltage: true } => "a terminal of the platinum element lies outside the supply; check its wires and their insulation",
        { ResistanceTemperatureDetectorLow: true } or { ReferenceInLow: true } or { ReferenceInHigh: true } =>
            "a wire of the platinum element is broken or touches another; check each, and the number of wires that is configured",
        _ => null,
    };
}
