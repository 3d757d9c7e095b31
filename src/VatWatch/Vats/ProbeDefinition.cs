using VatWatch.Vats.Configuration;

namespace VatWatch.Vats;

/// <summary>One probe as configured: what it measures, on which bus, by which driver and how often.</summary>
/// <param name="Id">Name, unique in the configuration.</param>
/// <param name="Vat">The vat it hangs in.</param>
/// <param name="Quantity">What it measures.</param>
/// <param name="Driver">Driver word, for example <c>text-line</c>.</param>
/// <param name="Every">Sample period, 100 ms to 1 h.</param>
/// <param name="Unit">Unit in which the driver delivers, turned into the canonical one by <see cref="SampleUnit"/>.</param>
public sealed record ProbeDefinition(ProbeId Id, VatId Vat, Quantity Quantity, BusId Bus, string Driver, TimeSpan Every, SampleUnit Unit)
{
    /// <summary>What is added to a thermometer's value, °C: found by a comparison with a better one.</summary>
    public double OffsetC { get; init; }

    /// <summary>A delivered value in the canonical unit, with the thermometer's correction.</summary>
    public double ToCanonical(double delivered) => Unit.ToCanonical(delivered) + OffsetC;
}

/// <summary>The name of one bus (a serial port, an I2C bus, a simulated vat); same alphabet as <see cref="VatId"/>.</summary>
public readonly record struct BusId(string Value)
{
    public override string ToString() => Value;
}

/// <summary>The name of one probe, unique in the whole configuration; same alphabet as <see cref="VatId"/>.</summary>
public readonly record struct ProbeId(string Value)
{
    public override string ToString() => Value;
}
