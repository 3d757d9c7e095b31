using Iot.Device.Max31865;

namespace VatWatch.Probes.Spi.Max31865;

/// <summary>How an MAX31865 is read.</summary>
/// <param name="Element">Pt100 or Pt1000.</param>
/// <param name="Wires">Wires between element and board; the board's bridges must agree.</param>
/// <param name="ReferenceOhm">The board's reference resistor.</param>
/// <param name="Filter">Mains frequency that is filtered out.</param>
internal sealed record Max31865Settings(
    PlatinumResistanceThermometerType Element, ResistanceTemperatureDetectorWires Wires, double ReferenceOhm, ConversionFilterMode Filter);
