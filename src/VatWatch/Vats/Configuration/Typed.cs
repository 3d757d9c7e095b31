using System.Collections.Frozen;
using System.Globalization;
using System.Text.RegularExpressions;

namespace VatWatch.Vats.Configuration;

/// <summary>
/// What people type, brought into the form that a configuration holds: "113 F" is "113 °F", "20,5 g" is "20.5 g", "2 litres" is "2 L", "wool" is a protein fibre. A configuration
/// file itself is read strictly (<see cref="QuantityKind"/>); whoever takes such a word says back what was understood.
/// </summary>
public static partial class Typed
{
    private static readonly FrozenDictionary<string, string> Units = new (string Unit, string[] Words)[]
    {
        ("°C", ["c", "deg c", "degc", "celsius", "degrees celsius", "degrees c"]),
        ("°F", ["f", "deg f", "degf", "fahrenheit", "degrees fahrenheit", "degrees f"]),
        ("L", ["l", "litre", "litres", "liter", "liters"]),
        ("mL", ["ml", "millilitre", "millilitres", "milliliter", "milliliters"]),
        ("gal", ["gals", "us gallon", "us gallons"]),
        ("g", ["gram", "grams", "gr", "gm"]),
        ("kg", ["kilo", "kilos", "kilogram", "kilograms"]),
        ("oz", ["ounce", "ounces"]),
        ("lb", ["pound", "pounds"]),
        ("%", ["percent", "per cent"]),
        ("mV", ["mv"]),
        ("s", ["sec", "secs", "second", "seconds"]),
        ("min", ["mins", "minute", "minutes"]),
        ("h", ["hr", "hrs", "hour", "hours"]),
    }.SelectMany(one => one.Words.Select(word => (word, one.Unit))).ToFrozenDictionary(pair => pair.word, pair => pair.Unit, StringComparer.OrdinalIgnoreCase);

    private static readonly FrozenDictionary<string, Fibre> Fibres = new (Fibre Fibre, string[] Words)[]
    {
        (Fibre.Protein, ["protein", "wool", "silk", "hair", "mohair", "alpaca", "cashmere", "angora"]),
        (Fibre.Cellulose, ["cellulose", "cotton", "linen", "flax", "hemp", "ramie", "viscose", "rayon"]),
    }.SelectMany(one => one.Words.Select(word => (word, one.Fibre))).ToFrozenDictionary(pair => pair.word, pair => pair.Fibre, StringComparer.OrdinalIgnoreCase);

    /// <summary>Words for a fibre, for a sentence.</summary>
    public const string FibreWanted = "protein (wool, silk, hair) or cellulose (cotton, linen, hemp)";

    /// <summary>A quantity with the unit as <see cref="QuantityKind"/> spells it; text that is none comes back as it was.</summary>
    public static string Quantity(string text)
    {
        var match = NumberAndUnit().Match(text.Trim());
        if (!match.Success)
        {
            return text.Trim();
        }

        var unit = match.Groups["unit"].Value.Trim();
        return $"{match.Groups["whole"].Value}{(match.Groups["part"] is { Success: true, Value: var part } ? $".{part}" : "")} {Units.GetValueOrDefault(unit, unit)}".Trim();
    }

    /// <summary>A number without a unit, with a decimal point or a decimal comma; false when it is none or not finite.</summary>
    public static bool TryNumber(string text, out double number) =>
        double.TryParse(Quantity(text), NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);

    /// <summary>The kind of fibre that a word means; null for any other word.</summary>
    public static Fibre? FibreOf(string? word) => word is not null && Fibres.TryGetValue(word.Trim(), out var fibre) ? fibre : null;

    /// <summary>
    /// A number with a decimal comma, then perhaps a unit. "1,500" could be one and a half or fifteen hundred, so three digits after a comma are read only behind a nought.
    /// </summary>
    [GeneratedRegex(@"^(?<whole>[-+]?\d*)(?:[.](?<part>\d+)|,(?<part>\d{1,2}|\d{4,})|(?<=^[-+]?0),(?<part>\d{3}))?(?<unit>\s*[^\d\s,.+-][^,]*)?$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnit();
}
