namespace VatWatch.Vats;

/// <summary>Names and canonical units of <see cref="Quantity"/>, as configuration, topics and files write them.</summary>
public static class QuantityText
{
    /// <summary>Every word that <c>measures</c> may hold in the configuration.</summary>
    public static IReadOnlyDictionary<string, Quantity> All { get; } = new Dictionary<string, Quantity>(StringComparer.Ordinal)
    {
        ["temperature"] = Quantity.Temperature,
        ["ambient"] = Quantity.Ambient,
        ["ph"] = Quantity.Ph,
        ["orp"] = Quantity.Orp,
        ["heater"] = Quantity.Heater,
        ["level"] = Quantity.Level,
    };

    /// <summary>The configuration's word for <paramref name="measures"/>.</summary>
    public static string Word(this Quantity measures) => measures switch
    {
        Quantity.Temperature => "temperature",
        Quantity.Ambient => "ambient",
        Quantity.Ph => "ph",
        Quantity.Orp => "orp",
        Quantity.Heater => "heater",
        Quantity.Level => "level",
        _ => throw new ArgumentOutOfRangeException(nameof(measures), measures, "is not a measured quantity"),
    };

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
