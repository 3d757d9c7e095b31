namespace VatWatch.Measurements;

/// <summary>What a probe in a dye vat can possibly show, in canonical units. Outside it the probe is at fault, not the vat.</summary>
/// <param name="Low">Least possible.</param>
/// <param name="High">Greatest possible.</param>
public readonly record struct MeasurableRange(double Low, double High)
{
    /// <summary>
    /// Water between frozen hard and steam under a lid (-20 to 130 °C); the pH scale of water solutions with the overshoot of a strong lye (-1 to 15);
    /// a heater up to half above its rating (mains too high, a rating rounded down);
    /// the span of water's redox potentials with any reference electrode (-1500 to 1500 mV). Engineering choice, no source.
    /// </summary>
    public static MeasurableRange Of(Quantity measures) => measures switch
    {
        Quantity.Temperature => new(-20, 130),
        Quantity.Ambient => new(-50, 80),
        Quantity.Ph => new(-1, 15),
        Quantity.Orp => new(-1500, 1500),
        Quantity.Heater => new(-0.05, 1.5),
        Quantity.HeaterCommand => new(0, 1),
        _ => new(-5, 120),
    };

    /// <summary>Whether <paramref name="value"/> can be.</summary>
    public bool Holds(double value) => value >= Low && value <= High;
}
