using System.Globalization;
using System.Text.RegularExpressions;
using UnitsNet;
using UnitsNet.Units;

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
    private readonly Func<double, string, double?> _turn;
    private readonly Func<double, string> _show;

    private QuantityKind(string noun, string example, Func<double, string, double?> turn, Func<double, string> show)
    {
        _noun = noun;
        _example = example;
        _turn = turn;
        _show = show;
    }

    /// <summary>°C.</summary>
    public static QuantityKind Temperature { get; } = Of(
        "°C", typeof(TemperatureUnit), "temperature", "113 °F", (value, unit) => UnitsNet.Temperature.From(value, (TemperatureUnit)unit).DegreesCelsius);

    /// <summary>K (a difference of temperature).</summary>
    public static QuantityKind TemperatureDifference { get; } = Of(
        "K", typeof(TemperatureDeltaUnit), "temperature difference", "1 °F", (value, unit) => TemperatureDelta.From(value, (TemperatureDeltaUnit)unit).Kelvins);

    /// <summary>Litres; "gal" is the US gallon.</summary>
    public static QuantityKind Volume { get; } = Of(
        "L", typeof(VolumeUnit), "volume", "40 gal", (value, unit) => UnitsNet.Volume.From(value, (VolumeUnit)unit).Liters);

    /// <summary>Grams; "oz" and "lb" are avoirdupois.</summary>
    public static QuantityKind Mass { get; } = Of(
        "g", typeof(MassUnit), "mass", "250 g", (value, unit) => UnitsNet.Mass.From(value, (MassUnit)unit).Grams);

    /// <summary>mV.</summary>
    public static QuantityKind Potential { get; } = Of(
        "mV", typeof(ElectricPotentialUnit), "potential", "-660 mV", (value, unit) => ElectricPotential.From(value, (ElectricPotentialUnit)unit).Millivolts);

    /// <summary>mV/h.</summary>
    public static QuantityKind PotentialRate { get; } = Of(
        "mV/h", typeof(ElectricPotentialChangeRateUnit), "rate of change of potential", "20 mV/h", (value, unit) => ElectricPotentialChangeRate.From(value, (ElectricPotentialChangeRateUnit)unit).MillivoltsPerHours);

    /// <summary>Seconds.</summary>
    public static QuantityKind Duration { get; } = Of(
        "s",
        typeof(DurationUnit),
        "length of time",
        "5 s",
        (value, unit) => UnitsNet.Duration.From(value, (DurationUnit)unit).Seconds,
        s => s >= 3600 ? Round(s / 3600, "h") : s >= 60 ? Round(s / 60, "min") : s >= 1 ? Round(s, "s") : Round(s * 1000, "ms"));

    /// <summary>Watts.</summary>
    public static QuantityKind Power { get; } = Of(
        "W", typeof(PowerUnit), "power", "1500 W", (value, unit) => (double)UnitsNet.Power.From(value, (PowerUnit)unit).Watts);

    /// <summary>Metres.</summary>
    public static QuantityKind Length { get; } = Of(
        "m", typeof(LengthUnit), "length", "50 cm", (value, unit) => UnitsNet.Length.From(value, (LengthUnit)unit).Meters);

    /// <summary>Ohms.</summary>
    public static QuantityKind Resistance { get; } = Of(
        "Ω", typeof(ElectricResistanceUnit), "resistance", "10 kΩ", (value, unit) => ElectricResistance.From(value, (ElectricResistanceUnit)unit).Ohms);

    /// <summary>Per cent.</summary>
    public static QuantityKind Percent { get; } = Of(
        "%", typeof(RatioUnit), "percentage", "40 %", (value, unit) => Ratio.From(value, (RatioUnit)unit).Percent);

    /// <summary>g/L: a dissolved mass in a volume of liquor.</summary>
    public static QuantityKind Concentration { get; } = Of(
        "g/L", typeof(MassConcentrationUnit), "strength", "60 g/L", (value, unit) => MassConcentration.From(value, (MassConcentrationUnit)unit).GramsPerLiter);

    /// <summary>
    /// meq/L: alkalinity of water. Tests of water print it in several ways: 1 meq/L is 50.04 mg/L counted as CaCO3 and 2.804 °dH (German degrees of
    /// carbonate hardness, 10 mg/L of CaO each).
    /// </summary>
    public static QuantityKind Alkalinity { get; } = new("alkalinity", "2 meq/L", MeqPerLitre, meq => Round(meq, "meq/L"));

    /// <summary>L/kg: liquor that goods carry, for their dry weight; "gal/lb" is the US gallon.</summary>
    public static QuantityKind CarryOver { get; } = new(
        "volume for a weight of goods",
        "1.2 L/kg",
        (number, unit) => unit.ToUpperInvariant() switch { "L/KG" => number, "GAL/LB" => number * DisplayUnits.LitresPerUsGallon / (16 * DisplayUnits.GramsPerOunce / 1000), _ => null },
        litres => Round(litres, "L/kg"));

    /// <summary>Reads <paramref name="text"/>; false when it is not this kind of quantity with a unit, or not finite.</summary>
    public bool TryParse(string text, out double canonical)
    {
        canonical = double.NaN;
        var match = NumberAndUnit().Match(text.Trim().Replace('−', '-').Replace('º', '°'));
        if (match.Success
            && double.TryParse(match.Groups["number"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            && Math.Abs(number) <= LargestNumber)
        {
            canonical = _turn(number, match.Groups["unit"].Value) ?? double.NaN;
        }

        return double.IsFinite(canonical);
    }

    /// <summary>A number of the canonical unit with a unit, for people.</summary>
    public string Show(double canonical) => _show(canonical);

    /// <summary>What a fault asks for: "a temperature with its unit, such as "113 °F", from 0 °C to 110 °C".</summary>
    public string Wanted(double low, double high) =>
        $"{(_noun.StartsWith('a') ? "an" : "a")} {_noun} with its unit, such as \"{_example}\", from {_show(low)} to {_show(high)}";

    /// <summary>One that UnitsNet knows. It is asked only for what is not written in the canonical unit: to load its units takes longer than all the rest of a configuration.</summary>
    private static QuantityKind Of(string canonical, Type units, string noun, string example, Func<double, Enum, double> turn, Func<double, string>? show = null) => new(
        noun,
        example,
        (number, text) => text == canonical ? number : UnitVocabulary.TryRead(text, units, out var unit) ? turn(number, unit) : null,
        show ?? (value => Round(value, canonical)));

    private static double? MeqPerLitre(double number, string unit)
    {
        var match = AlkalinityUnit().Match(unit);
        return !match.Success ? null : match.Groups["calcite"].Success ? number / 50.04 : match.Groups["degrees"].Success ? number / 2.804 : number;
    }

    private static string Round(double value, string unit) =>
        $"{Math.Round(value, 3)} {unit}";

    [GeneratedRegex(@"^(meq/L|(?<calcite>(mg/L|ppm)( as)? CaCO3)|(?<degrees>°dH))$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex AlkalinityUnit();

    /// <summary>One number with a decimal point, then a unit; no thousands, no decimal comma, no second number.</summary>
    [GeneratedRegex(@"^(?<number>[-+]?(\d+(\.\d*)?|\.\d+)(e[-+]?\d{1,3})?)\s*(?<unit>[^\d\s,.+-][^,]*)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnit();
}
