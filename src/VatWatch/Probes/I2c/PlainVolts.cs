using Iot.Device.Ads1115;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>The voltage as it is, V.</summary>
internal sealed record PlainVolts(SampleUnit Unit) : IVoltageMeaning
{
    public InputMultiplexer? SupplyInput => null;

    public Sample Translate(double volts, double? supplyVolts) => Sample.Good(volts);
}
