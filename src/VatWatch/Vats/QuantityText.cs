namespace VatWatch.Vats;

/// <summary>Canonical units of <see cref="Quantity"/>, as topics and files write them.</summary>
public static class QuantityText
{
    /// <summary>The unit in which values of this kind are kept: °C, pH, mV, on/off (1 or 0) or %.</summary>
    public static string Unit(this Quantity measures) => measures switch
    {
        Quantity.Temperature or Quantity.Ambient => "°C",
        Quantity.Ph => "pH",
        Quantity.Orp => "mV",
        Quantity.Heater => "on/off",
        Quantity.Level => "%",
        _ => throw new ArgumentOutOfRangeException(nameof(measures), measures, "is not a measured quantity"),
    };
}
