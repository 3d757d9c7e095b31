namespace VatWatch.Vats;

/// <summary>Names and canonical units of <see cref="Measures"/>, as configuration, topics and files write them.</summary>
public static class MeasuresWords
{
    /// <summary>Every word that <c>measures</c> may hold in the configuration.</summary>
    public static IReadOnlyDictionary<string, Measures> All { get; } = new Dictionary<string, Measures>(StringComparer.Ordinal)
    {
        ["temperature"] = Measures.Temperature,
        ["ambient"] = Measures.Ambient,
        ["ph"] = Measures.Ph,
        ["orp"] = Measures.Orp,
        ["heater"] = Measures.Heater,
        ["level"] = Measures.Level,
    };

    /// <summary>The configuration's word for <paramref name="measures"/>.</summary>
    public static string Word(this Measures measures) => measures switch
    {
        Measures.Temperature => "temperature",
        Measures.Ambient => "ambient",
        Measures.Ph => "ph",
        Measures.Orp => "orp",
        Measures.Heater => "heater",
        Measures.Level => "level",
        _ => throw new ArgumentOutOfRangeException(nameof(measures), measures, "is not a measured quantity"),
    };

    /// <summary>The unit in which values of this kind are kept: °C, pH, mV, on/off (1 or 0) or %.</summary>
    public static string Unit(this Measures measures) => measures switch
    {
        Measures.Temperature or Measures.Ambient => "°C",
        Measures.Ph => "pH",
        Measures.Orp => "mV",
        Measures.Heater => "on/off",
        Measures.Level => "%",
        _ => throw new ArgumentOutOfRangeException(nameof(measures), measures, "is not a measured quantity"),
    };
}
