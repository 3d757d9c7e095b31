using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using UnitsNet;
using UnitsNet.Units;

namespace VatWatch.Vats.Configuration;

/// <summary>
/// The spellings of units that a configuration or a command line may use, for UnitsNet's parser: those of the trade ("gal" is the US gallon, a
/// difference of temperature is written like a temperature). A vocabulary of its own, because the library's whole one costs an idle daemon
/// some 20 MB of memory. Thread safe.
/// </summary>
internal static class UnitVocabulary
{
    private static readonly UnitParser Parser = new(Spellings());

    /// <summary>Reads the name of a unit.</summary>
    public static bool TryRead(string text, Type kind, [NotNullWhen(true)] out Enum? unit) => Parser.TryParse(text, kind, CultureInfo.InvariantCulture, out unit);

    private static UnitAbbreviationsCache Spellings()
    {
        var spellings = UnitAbbreviationsCache.CreateEmpty();

        void Spell(Enum unit, params string[] texts) => spellings.MapUnitToAbbreviation(unit.GetType(), Convert.ToInt32(unit, CultureInfo.InvariantCulture), CultureInfo.InvariantCulture, texts);

        Spell(TemperatureUnit.DegreeCelsius, "°C");
        Spell(TemperatureUnit.DegreeFahrenheit, "°F");
        Spell(TemperatureUnit.Kelvin, "K");
        Spell(TemperatureDeltaUnit.DegreeCelsius, "°C");
        Spell(TemperatureDeltaUnit.DegreeFahrenheit, "°F");
        Spell(TemperatureDeltaUnit.Kelvin, "K");
        Spell(VolumeUnit.Liter, "L");
        Spell(VolumeUnit.Milliliter, "mL");
        Spell(VolumeUnit.CubicMeter, "m³", "m3");
        Spell(VolumeUnit.UsGallon, "gal", "gallon", "gallons", "US gal");
        Spell(VolumeUnit.ImperialGallon, "imp gal", "imperial gal");
        Spell(VolumeUnit.UsQuart, "qt");
        Spell(MassUnit.Gram, "g");
        Spell(MassUnit.Kilogram, "kg");
        Spell(MassUnit.Milligram, "mg");
        Spell(MassUnit.Ounce, "oz");
        Spell(MassUnit.Pound, "lb", "lbs");
        Spell(ElectricPotentialUnit.Millivolt, "mV");
        Spell(ElectricPotentialUnit.Volt, "V");
        Spell(ElectricPotentialChangeRateUnit.MillivoltPerHour, "mV/h");
        Spell(ElectricPotentialChangeRateUnit.MillivoltPerMinute, "mV/min");
        Spell(DurationUnit.Millisecond, "ms");
        Spell(DurationUnit.Second, "s");
        Spell(DurationUnit.Minute, "min");
        Spell(DurationUnit.Hour, "h");
        Spell(DurationUnit.Day, "d");
        Spell(PowerUnit.Watt, "W");
        Spell(PowerUnit.Kilowatt, "kW");
        Spell(LengthUnit.Meter, "m");
        Spell(LengthUnit.Centimeter, "cm");
        Spell(LengthUnit.Millimeter, "mm");
        Spell(LengthUnit.Inch, "in");
        Spell(LengthUnit.Foot, "ft");
        Spell(ElectricResistanceUnit.Ohm, "Ω", "ohm");
        Spell(ElectricResistanceUnit.Kiloohm, "kΩ", "kohm");
        Spell(ElectricResistanceUnit.Megaohm, "MΩ");
        Spell(RatioUnit.Percent, "%");
        Spell(MassConcentrationUnit.GramPerLiter, "g/L", "g/l");
        Spell(MassConcentrationUnit.MilligramPerLiter, "mg/L", "mg/l");
        Spell(MassConcentrationUnit.OuncePerUSGallon, "oz/gal");
        return spellings;
    }
}
