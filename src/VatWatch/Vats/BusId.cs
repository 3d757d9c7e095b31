namespace VatWatch.Vats;

/// <summary>The name of one bus (a serial port, an I2C bus, a simulated vat); same alphabet as <see cref="VatId"/>.</summary>
public readonly record struct BusId(string Value)
{
    public override string ToString() => Value;
}
