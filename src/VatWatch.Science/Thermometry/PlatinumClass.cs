namespace VatWatch.Science.Thermometry;

/// <summary>Tolerance classes of platinum resistance thermometers by IEC 60751.</summary>
public enum PlatinumClass
{
    /// <summary>0.1 + 0.0017 |t|, −50 to 250 °C.</summary>
    AA,

    /// <summary>0.15 + 0.002 |t|, −100 to 450 °C.</summary>
    A,

    /// <summary>0.3 + 0.005 |t|, −196 to 600 °C.</summary>
    B,

    /// <summary>0.6 + 0.01 |t|, −196 to 600 °C.</summary>
    C,
}
