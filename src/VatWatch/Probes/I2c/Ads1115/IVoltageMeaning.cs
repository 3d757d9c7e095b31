using Iot.Device.Ads1115;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>What a measured voltage stands for.</summary>
internal interface IVoltageMeaning
{
    /// <summary>The unit of the translated value.</summary>
    SampleUnit Unit { get; }

    /// <summary>A second input to be read right after the first, if any.</summary>
    InputMultiplexer? SupplyInput { get; }

    /// <summary>Translates; <paramref name="supplyVolts"/> is there when <see cref="SupplyInput"/> is.</summary>
    Sample Translate(double volts, double? supplyVolts);
}
