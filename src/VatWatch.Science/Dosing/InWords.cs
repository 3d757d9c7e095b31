namespace VatWatch.Science.Dosing;

/// <summary>Quantities inside the sentences of a dose, in both of the trade's systems of units.</summary>
internal static class InWords
{
    private const double GramsPerOunce = 28.349523125;
    private const double LitresPerUsGallon = 3.785411784;

    /// <summary>For example "27 g (0.95 oz)".</summary>
    public static string Mass(double grams) => $"{Plain(grams)} g ({Plain(grams / GramsPerOunce)} oz)";

    /// <summary>For example "151 L (40 gal)".</summary>
    public static string Volume(double litres) => $"{Plain(litres)} L ({Plain(litres / LitresPerUsGallon)} gal)";

    /// <summary>For example "45 °C (113 °F)".</summary>
    public static string Temperature(double temperatureC) => Text($"{temperatureC:0.#} °C ({temperatureC * 1.8 + 32:0.#} °F)");

    /// <summary>For example "2 g/L (0.27 oz/gal)".</summary>
    public static string Strength(double gramsPerLitre) =>
        $"{Plain(gramsPerLitre)} g/L ({Plain(gramsPerLitre * LitresPerUsGallon / GramsPerOunce)} oz/gal)";

    /// <summary>For example "pH 9.5".</summary>
    public static string Ph(double ph) => Text($"pH {ph:0.0#}");

    /// <summary>A number with as many digits as a scale and a jug are good for.</summary>
    public static string Plain(double value) => Math.Abs(value) switch
    {
        >= 100 => Text($"{value:0}"),
        >= 10 => Text($"{value:0.#}"),
        _ => Text($"{value:0.##}"),
    };

    private static string Text(FormattableString text) => text.ToString();
}
