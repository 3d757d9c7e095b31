using System.Globalization;
using System.Text.RegularExpressions;

namespace VatWatch.Vats;

/// <summary>Writes quantities in the dyer's units. Everything inside the program is SI; this is the only place that turns it.</summary>
/// <param name="IsUs">True for °F, US gal, lb and oz; false for °C, L, kg and g.</param>
public sealed partial record DisplayUnits(bool IsUs)
{
    /// <summary>°F, US gallons, pounds, ounces.</summary>
    public static DisplayUnits Us { get; } = new(true);

    /// <summary>°C, litres, kilograms, grams.</summary>
    public static DisplayUnits Si { get; } = new(false);

    /// <summary>Both by the words of a configuration.</summary>
    public static IReadOnlyDictionary<string, DisplayUnits> All { get; } = new Dictionary<string, DisplayUnits>(StringComparer.Ordinal) { ["us"] = Us, ["si"] = Si };

    /// <summary>"°F" or "°C".</summary>
    public string TemperatureUnit => IsUs ? "°F" : "°C";

    /// <summary>A temperature, °C, as a number in the dyer's unit.</summary>
    public double FromCelsius(double temperatureC) => IsUs ? temperatureC * 1.8 + 32 : temperatureC;

    /// <summary>A temperature difference or rate, K (or K/h), as a number in the dyer's unit.</summary>
    public double FromKelvinDifference(double kelvin) => IsUs ? kelvin * 1.8 : kelvin;

    /// <summary>For example "118.4 °F".</summary>
    public string Temperature(double temperatureC) => $"{Number(FromCelsius(temperatureC), 1)} {TemperatureUnit}";

    /// <summary>For example "4.5 °F/h".</summary>
    public string TemperatureRate(double kelvinPerHour) => $"{Number(FromKelvinDifference(kelvinPerHour), 1)} {TemperatureUnit}/h";

    /// <summary>For example "40 gal" or "151 L".</summary>
    public string Volume(double litres) => IsUs ? $"{Number(litres / LitresPerUsGallon, 1)} gal" : $"{Number(litres, 0)} L";

    /// <summary>For example "3.5 oz" or "100 g".</summary>
    public string Mass(double grams) => IsUs ? $"{Number(grams / GramsPerOunce, 2)} oz" : $"{Number(grams, 0)} g";

    /// <summary>The weight of goods, for example "2.00 lb" or "0.91 kg", and small ones as <see cref="Mass"/>.</summary>
    public string Goods(double grams) => (IsUs, grams) switch
    {
        (true, >= 16 * GramsPerOunce) => $"{Number(grams / GramsPerOunce / 16, 2)} lb",
        (false, >= 1000) => $"{Number(grams / 1000, 2)} kg",
        _ => Mass(grams),
    };

    /// <summary>A measured value of this kind with its unit; potentials and pH are the same in both systems.</summary>
    public string Value(Quantity measures, double value) => Text(value, measures.Unit());

    /// <summary>A number of this canonical unit with its unit, for example "118.4 °F" for 48 and "°C". A unit that is not ours is written as it is.</summary>
    public string Text(double value, string unit) => unit switch
    {
        "°C" => Temperature(value),
        "K" => $"{Number(FromKelvinDifference(value), 1)} {TemperatureUnit}",
        "K/h" => TemperatureRate(value),
        "L" => Volume(value),
        "g" => Mass(value),
        "pH" => $"pH {Number(value, 2)}",
        "on/off" when QuantityText.IsHeating(value) && value < 0.95 => $"{Number(100 * value, 0)} %",
        "on/off" => QuantityText.IsHeating(value) ? "on" : "off",
        _ => $"{Number(value, 0)} {unit}",
    };

    /// <summary>
    /// A number of this canonical unit as a number of the dyer's, no finer than it is read: tenths of a degree, hundredths of pH, whole millivolts,
    /// whole minutes and seconds gone by.
    /// </summary>
    public (double Value, string Unit) Turn(double value, string unit) => unit switch
    {
        "°C" => (Tenths(FromCelsius(value)), TemperatureUnit),
        "K" => (Tenths(FromKelvinDifference(value)), TemperatureUnit),
        "pH" => (Math.Round(value, 2), unit),
        "mV" or "mV/h" => (Math.Round(value), unit),
        "min" or "s" => (Math.Floor(value), unit),
        _ => (value, unit),
    };

    /// <summary>A sentence that a probe or an electrode gave, with its temperatures in the dyer's units: "says 85 °C" is "says 185 °F". One that tells both stays.</summary>
    public string Words(string sentence) => IsUs && (sentence.Contains('°') || sentence.Contains("K/min", StringComparison.Ordinal)) ? Degrees().Replace(sentence, Turned) : sentence;

    private string Turned(Match found)
    {
        var isRate = found.Groups["unit"].Value == "K/min";
        var (low, to) = (found.Groups["low"], found.Groups["to"]);
        return $"{(low.Success ? Number(low) + to.Value : "")}{Number(found.Groups["value"])} {TemperatureUnit}{(isRate ? "/min" : "")}";

        string Number(Group written)
        {
            var value = double.Parse(written.Value.Replace('−', '-'), CultureInfo.InvariantCulture);
            var decimals = written.Value.Contains('.', StringComparison.Ordinal) ? 1 : 0;
            return DisplayUnits.Number(isRate ? FromKelvinDifference(value) : FromCelsius(value), decimals);
        }
    }

    [GeneratedRegex(@"((?<low>[-−]?\d+(\.\d+)?)(?<to> (to|and) ))?(?<value>[-−]?\d+(\.\d+)?) (?<unit>°C|K/min)(?! \()", RegexOptions.CultureInvariant)]
    private static partial Regex Degrees();

    /// <summary>A length of time in words, for example "2 h 05 min", "41 min" or "20 s".</summary>
    public static string Duration(TimeSpan time) => time switch
    {
        { TotalHours: >= 1, Minutes: 0 } => $"{(int)time.TotalHours} h",
        { TotalHours: >= 1 } => $"{(int)time.TotalHours} h {time.Minutes:00} min",
        { TotalMinutes: >= 1 } => $"{(int)time.TotalMinutes} min",
        _ => $"{(int)time.TotalSeconds} s",
    };

    /// <summary>A number of things in words, for example "1 vat", "3 vats".</summary>
    /// <param name="many">The plural; null for one with an s.</param>
    public static string Count(long count, string one, string? many = null) => $"{count} {(count == 1 ? one : many ?? one + "s")}";

    /// <summary>US liquid gallon, exact by definition (231 cubic inches).</summary>
    public const double LitresPerUsGallon = 3.785411784;

    /// <summary>Avoirdupois ounce, exact by definition.</summary>
    public const double GramsPerOunce = 28.349523125;

    private static double Tenths(double value) => Math.Round(value, 1, MidpointRounding.AwayFromZero);

    private static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("F" + decimals).Replace('-', '−');
    }
}
