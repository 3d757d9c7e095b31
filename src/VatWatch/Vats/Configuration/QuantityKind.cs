using System.Globalization;
using System.Text.RegularExpressions;
using UnitsNet;

namespace VatWatch.Vats.Configuration;

/// <summary>
/// A physical quantity that people write with its unit ("118 °F", "40 gal", "20 mV/h"), and the canonical unit it is turned into.
/// Units are read by UnitsNet; only the trade's short forms that it does not know are added here.
/// </summary>
public sealed partial class QuantityKind
{
    /// <summary>No quantity of a dye house has more; keeps infinities away from the parser.</summary>
    private const double LargestNumber = 1e12;

    private readonly string _example;
    private readonly string _noun;
    private readonly TryParseText _parse;
    private readonly Func<double, string> _show;

    private QuantityKind(string noun, string example, TryParseText parse, Func<double, string> show)
    {
        _noun = noun;
        _example = example;
        _parse = parse;
        _show = show;
    }

    private delegate bool TryParseText(string text, out double canonical);

    /// <summary>°C.</summary>
    public static QuantityKind Temperature { get; } = new("temperature", "113 °F",
        (string text, out double c) => Parsed(UnitsNet.Temperature.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.DegreesCelsius, out c),
        c => Round(c, "°C"));

    /// <summary>K (a difference of temperature).</summary>
    public static QuantityKind TemperatureDifference { get; } = new("temperature difference", "1 °F",
        (string text, out double k) => Parsed(TemperatureDelta.TryParse(AsDelta(text), CultureInfo.InvariantCulture, out var q), () => q.Kelvins, out k),
        k => Round(k, "K"));

    /// <summary>Litres; "gal" is the US gallon.</summary>
    public static QuantityKind Volume { get; } = new("volume", "40 gal",
        (string text, out double l) => Parsed(UnitsNet.Volume.TryParse(AsVolume(text), CultureInfo.InvariantCulture, out var q), () => q.Liters, out l),
        l => Round(l, "L"));

    /// <summary>Grams; "oz" and "lb" are avoirdupois.</summary>
    public static QuantityKind Mass { get; } = new("mass", "250 g",
        (string text, out double g) => Parsed(UnitsNet.Mass.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.Grams, out g),
        g => Round(g, "g"));

    /// <summary>mV.</summary>
    public static QuantityKind Potential { get; } = new("potential", "-660 mV",
        (string text, out double mv) => Parsed(ElectricPotential.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.Millivolts, out mv),
        mv => Round(mv, "mV"));

    /// <summary>mV/h.</summary>
    public static QuantityKind PotentialRate { get; } = new("rate of change of potential", "20 mV/h",
        (string text, out double rate) => Parsed(ElectricPotentialChangeRate.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.MillivoltsPerHours, out rate),
        rate => Round(rate, "mV/h"));

    /// <summary>Seconds.</summary>
    public static QuantityKind Duration { get; } = new("length of time", "5 s",
        (string text, out double s) => Parsed(UnitsNet.Duration.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.Seconds, out s),
        s => s >= 3600 ? Round(s / 3600, "h") : s >= 60 ? Round(s / 60, "min") : s >= 1 ? Round(s, "s") : Round(s * 1000, "ms"));

    /// <summary>Watts.</summary>
    public static QuantityKind Power { get; } = new("power", "1500 W",
        (string text, out double w) => Parsed(UnitsNet.Power.TryParse(text, CultureInfo.InvariantCulture, out var q), () => (double)q.Watts, out w),
        w => Round(w, "W"));

    /// <summary>Metres.</summary>
    public static QuantityKind Length { get; } = new("length", "50 cm",
        (string text, out double m) => Parsed(UnitsNet.Length.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.Meters, out m),
        m => Round(m, "m"));

    /// <summary>Ohms.</summary>
    public static QuantityKind Resistance { get; } = new("resistance", "10 kΩ",
        (string text, out double ohm) => Parsed(ElectricResistance.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.Ohms, out ohm),
        ohm => Round(ohm, "Ω"));

    /// <summary>Per cent.</summary>
    public static QuantityKind Percent { get; } = new("percentage", "40 %",
        (string text, out double percent) => Parsed(Ratio.TryParse(text, CultureInfo.InvariantCulture, out var q), () => q.Percent, out percent),
        percent => Round(percent, "%"));

    /// <summary>
    /// meq/L: alkalinity of water. Tests of water print it in several ways: 1 meq/L is 50.04 mg/L counted as CaCO3 and 2.804 °dH (German degrees of
    /// carbonate hardness, 10 mg/L of CaO each).
    /// </summary>
    public static QuantityKind Alkalinity { get; } = new("alkalinity", "2 meq/L", TryAlkalinity, meq => Round(meq, "meq/L"));

    /// <summary>Reads <paramref name="text"/>; false when it is not this kind of quantity with a unit, or not finite.</summary>
    public bool TryParse(string text, out double canonical)
    {
        canonical = 0;
        var tidy = text.Trim().Replace('−', '-').Replace('º', '°');
        return NumberAndUnit().Match(tidy) is { Success: true } match
            && double.TryParse(match.Groups["number"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            && Math.Abs(number) <= LargestNumber
            && _parse(tidy, out canonical)
            && double.IsFinite(canonical);
    }

    /// <summary>What a fault asks for: "a temperature with its unit, such as "113 °F", from 0 °C to 110 °C".</summary>
    public string Wanted(double low, double high) =>
        $"{(_noun.StartsWith('a') ? "an" : "a")} {_noun} with its unit, such as \"{_example}\", from {_show(low)} to {_show(high)}";

    private static bool Parsed(bool parsed, Func<double> value, out double canonical)
    {
        canonical = parsed ? value() : 0;
        return parsed;
    }

    private static bool TryAlkalinity(string text, out double meqPerLitre)
    {
        var match = AlkalinityText().Match(text);
        var read = double.TryParse(match.Groups["number"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out var number);
        meqPerLitre = match.Groups["calcite"].Success ? number / 50.04 : match.Groups["degrees"].Success ? number / 2.804 : number;
        return read;
    }

    private static string AsVolume(string text) => GallonWord().Replace(text, match =>
        match.Groups["imperial"].Success ? " gal (imp.)" : " gal (U.S.)");

    /// <summary>UnitsNet writes units of a difference with a delta; people do not.</summary>
    private static string AsDelta(string text) => DegreeWord().Replace(text, " ∆$1");

    private static string Round(double value, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{Math.Round(value, 3)} {unit}");

    [GeneratedRegex(@"\s*(us |(?<imperial>imp(erial)? ))?gal(lons?)?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex GallonWord();

    [GeneratedRegex(@"^(?<number>[^\sm°p]+)\s*(meq/L|(?<calcite>(mg/L|ppm)( as)? CaCO3)|(?<degrees>°dH))$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex AlkalinityText();

    [GeneratedRegex(@"\s*(°[CF]|K)$", RegexOptions.CultureInvariant)]
    private static partial Regex DegreeWord();

    /// <summary>One number with a decimal point, then a unit; no thousands, no decimal comma, no second number.</summary>
    [GeneratedRegex(@"^(?<number>[-+]?(\d+(\.\d*)?|\.\d+)(e[-+]?\d{1,3})?)\s*[^\d\s,.+-][^,]*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnit();
}
