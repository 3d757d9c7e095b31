using Iot.Device.Ads1115;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>How one input of an ADS1115 is read.</summary>
/// <param name="Input">The pin, or the pair whose difference is read.</param>
/// <param name="Range">Full scale.</param>
/// <param name="Rate">Conversions per second; the slower, the quieter.</param>
/// <param name="Average">Conversions that a reading is the mean of.</param>
/// <param name="Meaning">What the voltage stands for.</param>
internal sealed record Ads1115Settings(InputMultiplexer Input, MeasuringRange Range, DataRate Rate, int Average, IVoltageMeaning Meaning);
