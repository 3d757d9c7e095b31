namespace VatWatch.Vats;

/// <summary>Canonical units of <see cref="Quantity"/>, as topics and files write them.</summary>
public static class QuantityText
{
    /// <summary>The unit in which values of this kind are kept: °C, pH, mV, on/off (1 or 0, for a heater also the share between) or %.</summary>
    public static string Unit(this Quantity measures) => measures switch
    {
        Quantity.Temperature or Quantity.Ambient => "°C",
        Quantity.Ph => "pH",
        Quantity.Orp => "mV",
        Quantity.Heater or Quantity.HeaterCommand => "on/off",
        Quantity.Level => "%",
        _ => throw new ArgumentOutOfRangeException(nameof(measures), measures, "is not a measured quantity"),
    };

    /// <summary>From this share of its rated power on a heater counts as on: above the idle draw of a controller or an indicator lamp. Engineering choice, no source.</summary>
    private const double LeastShare = 0.05;

    /// <summary>Whether a heater that draws this share of its rated power is on.</summary>
    public static bool IsHeating(double share) => share >= LeastShare;
}
