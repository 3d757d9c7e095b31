namespace VatWatch.Probes.Spi.Max31865;

/// <summary>How an MAX31865 is read.</summary>
/// <param name="ElementOhm">Resistance of the element at 0 °C: 100 or 1000 Ω.</param>
/// <param name="Wires">Wires between element and board, 2 to 4; the board's bridges must agree.</param>
/// <param name="ReferenceOhm">The board's reference resistor.</param>
/// <param name="LeadsOhm">What both wires have together and the chip does not take out, Ω: with two wires alone.</param>
/// <param name="MainsHertz">Mains frequency that is filtered out: 50 or 60.</param>
internal sealed record Max31865Settings(double ElementOhm, int Wires, double ReferenceOhm, double LeadsOhm, int MainsHertz);
