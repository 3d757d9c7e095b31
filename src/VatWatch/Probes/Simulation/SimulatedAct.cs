namespace VatWatch.Probes.Simulation;

/// <summary>What can be done to a simulated vat, or go wrong with it.</summary>
public enum SimulatedActKind
{
    /// <summary>The lid comes off.</summary>
    LidOff,

    /// <summary>The lid goes on.</summary>
    LidOn,

    /// <summary>Wet yarn of room temperature goes in; the amount is its dry mass, kg. It carries 1.5 times that of water, and air.</summary>
    Dip,

    /// <summary>Air gets in and dissolves from here on, as by a pump that sucks it; the amount is in litres an hour, 0 for no more.</summary>
    AirGetsIn,

    /// <summary>Thiourea dioxide is given; the amount is in grams.</summary>
    Sharpen,

    /// <summary>The heater's contact welds: it heats from here on.</summary>
    HeaterSticks,

    /// <summary>The heater is unplugged or burns out: it gives nothing from here on.</summary>
    HeaterFails,

    /// <summary>The heater gives a share of its power from here on; the amount is the share, 0 to 1.</summary>
    HeaterWeakens,
}

/// <summary>An act on a simulated vat.</summary>
/// <param name="At">Time after the start.</param>
/// <param name="Amount">How much, where the kind says of what.</param>
public sealed record SimulatedAct(TimeSpan At, SimulatedActKind Kind, double Amount = 0);
