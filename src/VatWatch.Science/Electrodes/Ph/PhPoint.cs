namespace VatWatch.Science.Electrodes.Ph;

/// <summary>One buffer as an electrode saw it while it was calibrated. Immutable; safe on any thread.</summary>
/// <param name="ElectrodeMillivolts">Settled electrode voltage, mV.</param>
/// <param name="BufferPh">The buffer's pH at the temperature it was measured at, not its label at 25 °C.</param>
/// <param name="TemperatureC">Temperature of the buffer, °C.</param>
public readonly record struct PhPoint(double ElectrodeMillivolts, double BufferPh, double TemperatureC);
