using VatWatch.Probes.Blocking;
using VatWatch.Science.Thermometry;

namespace VatWatch.Probes.Spi.Max31865;

/// <summary>
/// A platinum thermometer behind an MAX31865. For each sample the bias is switched on, the chip looks for broken and touching wires by its
/// automatic fault-detection cycle, converts once, and the bias is switched off again, so that the element is not warmed. The library's class
/// starts no such cycle, without which the chip never tells of a wire.
/// </summary>
internal sealed class Max31865Chip : IChip
{
    // Registers and bits: the maker's register description.
    private const byte WriteBit = 0x80;
    private const byte ConfigurationRegister = 0x00;
    private const byte ThresholdRegister = 0x03;
    private const int Registers = 8;
    private const byte Bias = 0x80;
    private const byte OneShot = 0x20;
    private const byte ThreeWires = 0x10;
    private const byte FaultCycle = 0x0C;
    private const byte AutomaticFaultCycle = 0x04;
    private const byte ClearFaults = 0x02;
    private const byte FiftyHertz = 0x01;
    private const byte FaultBit = 0x01;
    private const byte SettingsMask = 0xD1;
    private const double FullScale = 32768;

    /// <summary>
    /// From bias to a steady voltage: ten time constants of the input's filter (0.1 µF, the reference and the element: under 0.1 ms) and 1 ms
    /// by the data sheet; boards with larger filters get as much again and more.
    /// </summary>
    private static readonly TimeSpan BiasSettles = TimeSpan.FromMilliseconds(10);

    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(5);
    private const int Looks = 20;

    private readonly GuardedSpiDevice _device;
    private readonly Max31865Settings _settings;
    private readonly byte _idle;
    private readonly TimeSpan _conversion;

    public Max31865Chip(GuardedSpiDevice device, Max31865Settings settings)
    {
        _device = device;
        _settings = settings;
        _idle = (byte)((settings.Wires == 3 ? ThreeWires : 0) | (settings.MainsHertz == 50 ? FiftyHertz : 0));

        // Longest single conversion by the data sheet: 55 ms with the filter for 60 Hz, 66 ms with that for 50 Hz.
        _conversion = TimeSpan.FromMilliseconds(settings.MainsHertz == 50 ? 66 : 55);
        Configure(0);

        // Thresholds at the ends of the range, as after power-up: another program may have left others.
        _device.Write([ThresholdRegister | WriteBit, 0xFF, 0xFF, 0, 0]);
    }

    public Sample Read()
    {
        Configure(Bias | ClearFaults);
        _device.Pause(BiasSettles);
        Configure(Bias | AutomaticFaultCycle);
        Await(FaultCycle, "it did not end its look for broken wires");
        Configure(Bias | OneShot);
        _device.Pause(_conversion);
        Await(OneShot, "it began a conversion and did not finish it");
        var seen = _device.ReadRegisters(ConfigurationRegister, Registers);
        Configure(0);
        Verify(seen[0], (byte)(_idle | Bias));
        var (resistance, faults) = ((seen[1] << 8) | seen[2], seen[7]);
        if (WireFault.Words(faults) is { } words)
        {
            return Sample.Fault(words);
        }

        return (resistance & FaultBit) != 0
            ? Sample.Fault("the MAX31865 marks its reading as faulty without saying why")
            : Temperature(resistance >> 1);
    }

    private void Configure(int bits) => _device.Write([ConfigurationRegister | WriteBit, (byte)(_idle | bits)]);

    /// <summary>Looks until the chip has cleared these bits itself.</summary>
    private void Await(byte bits, string failure)
    {
        for (var look = 0; look < Looks; look++)
        {
            var seen = _device.ReadRegisters(ConfigurationRegister, 1)[0];
            if ((seen & bits) == 0)
            {
                return;
            }

            Verify(seen, (byte)(_idle | Bias));
            _device.Pause(Look);
        }

        throw new ChipRestartedException($"{failure}; check its supply");
    }

    private static void Verify(byte seen, byte wanted)
    {
        if ((seen & SettingsMask) != wanted || seen == byte.MaxValue)
        {
            throw new ChipRestartedException(seen == byte.MaxValue
                ? "it sends only ones: nothing drives the wire MISO; check the wiring and the chip select"
                : $"its configuration is 0x{seen:X2} where 0x{wanted:X2} was written; check its supply, its wiring and the chip select");
        }
    }

    private Sample Temperature(int code)
    {
        var ohm = code / FullScale * _settings.ReferenceOhm;
        try
        {
            var temperature = PlatinumResistance.TemperatureC(ohm - _settings.LeadsOhm, _settings.ElementOhm);
            if (!temperature.Extrapolated)
            {
                return Sample.Good(temperature.Value);
            }
        }
        catch (ArgumentOutOfRangeException)
        {
            // No temperature gives this resistance; it is told below.
        }

        return Sample.Fault(ohm < _settings.ElementOhm
            ? $"platinum element shorted, or the chip silent: {ohm:0.0} Ω"
            : $"platinum element's circuit open, or the reference resistor another: {ohm:0.0} Ω");
    }
}
