using Iot.Device.Ads1115;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>An electrode behind an amplifier: electrode mV = 1000 (V − zero) / gain.</summary>
/// <param name="Gain">Volts out per volt of the electrode; negative for an inverting amplifier.</param>
/// <param name="ZeroVolts">Output at 0 mV of the electrode.</param>
/// <param name="Unit">Electrode mV for a calibration to turn into a value, or mV of finished ORP.</param>
internal sealed record AmplifiedElectrode(double Gain, double ZeroVolts, SampleUnit Unit) : IVoltageMeaning
{
    public InputMultiplexer? SupplyInput => null;

    public Sample Translate(double volts, double? supplyVolts) => Sample.Good(1000 * (volts - ZeroVolts) / Gain);
}
