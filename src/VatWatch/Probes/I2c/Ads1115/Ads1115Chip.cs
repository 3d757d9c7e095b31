using Iot.Device.Ads1115;
using VatWatch.Probes.Blocking;
using Converter = Iot.Device.Ads1115.Ads1115;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>
/// One input of an ADS1115. Always in power-down mode, where every reading selects its input and starts its own conversion: in continuous
/// mode a second probe on the same chip would be handed the other one's voltage. The configuration is read back after each conversion,
/// because a chip that lost its supply for a moment would otherwise answer with a plausible 0 V.
/// </summary>
#pragma warning disable CA1001 // Disposing of the library's chip would close the device that other probes share, after talking to the chip once more.
internal sealed class Ads1115Chip : IChip
#pragma warning restore CA1001
{
    private const byte ConfigurationRegister = 0x01;

    // Bit 15 reads as "not converting", and is no setting.
    private const int SettingsMask = 0x7FFF;

    private const double FullScale = 32768;

    // Single-shot mode, comparator off.
    private const int CommonSettings = 0x0103;

    private readonly GuardedI2cDevice _device;
    private readonly Ads1115Settings _settings;
    private readonly Converter _chip;

    public Ads1115Chip(GuardedI2cDevice device, Ads1115Settings settings)
    {
        _device = device;
        _settings = settings;
        _chip = new Converter(device, settings.Input, settings.Range, settings.Rate, DeviceMode.PowerDown);
    }

    public Sample Read()
    {
        if (Volts(_settings.Input) is not { } volts)
        {
            return BeyondRange(_settings.Input);
        }

        if (_settings.Meaning.SupplyInput is not { } supplyInput)
        {
            return _settings.Meaning.Translate(volts, null);
        }

        return Volts(supplyInput) is { } supply ? _settings.Meaning.Translate(volts, supply) : BeyondRange(supplyInput);
    }

    /// <summary>The mean of so many conversions, V; null when one was beyond the range.</summary>
    private double? Volts(InputMultiplexer input)
    {
        var sum = 0;
        for (var conversion = 0; conversion < _settings.Average; conversion++)
        {
            if (Counts(input) is not { } counts)
            {
                return null;
            }

            sum += counts;
        }

        return sum / (double)_settings.Average / FullScale * _chip.MaxVoltageFromMeasuringRange(_settings.Range).Volts;
    }

    /// <summary>One conversion, and one more when a transfer of it failed.</summary>
    private short? Counts(InputMultiplexer input)
    {
        try
        {
            return Convert(input);
        }
        catch (IOException error) when (TransferError.MayRepeat(error) && error is not ChipRestartedException)
        {
            return Convert(input);
        }
    }

    private short? Convert(InputMultiplexer input)
    {
        var raw = _chip.ReadRaw(input, _settings.Range, _settings.Rate);
        var wanted = ((int)input << 12) | ((int)_settings.Range << 9) | ((int)_settings.Rate << 5) | CommonSettings;
        var seen = _device.ReadWord(ConfigurationRegister) & SettingsMask;
        if (seen != wanted)
        {
            throw new ChipRestartedException(
                $"its configuration is 0x{seen:X4} where 0x{wanted:X4} was written; check its supply, and that no other program uses it");
        }

        return raw is short.MaxValue or short.MinValue ? null : raw;
    }

    private Sample BeyondRange(InputMultiplexer input) => Sample.Fault(
        $"the voltage at {Ads1115Text.Of(input)} is beyond the range of {_chip.MaxVoltageFromMeasuringRange(_settings.Range).Volts:0.000} V; check the wiring, or choose a wider range");
}

/// <summary>How one input of an ADS1115 is read.</summary>
/// <param name="Input">The pin, or the pair whose difference is read.</param>
/// <param name="Range">Full scale.</param>
/// <param name="Rate">Conversions per second; the slower, the quieter.</param>
/// <param name="Average">Conversions that a reading is the mean of.</param>
/// <param name="Meaning">What the voltage stands for.</param>
internal sealed record Ads1115Settings(InputMultiplexer Input, MeasuringRange Range, DataRate Rate, int Average, IVoltageMeaning Meaning);
