namespace VatWatch.Probes.Spi.Max31865;

/// <summary>Names what the fault register of an MAX31865 tells of the element's wires.</summary>
/// <remarks>
/// What each bit compares is in the data sheet; what follows for the wires, from the circuit: the bias feeds the reference resistor, then the
/// element by F+, then F−. With F− joined, REFIN− near the bias means that no current flows. With F− opened by the chip no current may flow at
/// all: REFIN− below means that it finds another way, at the side of F+, and RTDIN− below that the bias does not come through to RTD−.
/// </remarks>
internal static class WireFault
{
    private const byte HighThreshold = 0x80;
    private const byte LowThreshold = 0x40;
    private const byte NoCurrent = 0x20;
    private const byte CurrentWithForceOpen = 0x10;
    private const byte NoBiasAtSense = 0x08;
    private const byte OverUnderVoltage = 0x04;

    /// <summary>The gravest fault of the byte in words; null when there is none.</summary>
    public static string? Words(byte faults) => faults switch
    {
        _ when (faults & OverUnderVoltage) != 0 => "a terminal of the platinum element lies outside the supply; check its wires and their insulation",
        _ when (faults & NoCurrent) != 0 => "no current flows through the platinum element: the element or a feeding wire (F+ or F−) is broken",
        _ when (faults & CurrentWithForceOpen) != 0 => "current leaves the platinum element on the side of F+ by another way: a wire touches the sheath, ground or liquor",
        _ when (faults & NoBiasAtSense) != 0 => "the sensing wire RTD− of the platinum element is broken, or touches the sheath, ground or liquor",
        _ when (faults & HighThreshold) != 0 => "platinum element's circuit open: its resistance is at the upper end; check the sensing wire RTD+",
        _ when (faults & LowThreshold) != 0 => "platinum element shorted: its resistance is at the lower end; check its wires",
        _ => null,
    };
}
