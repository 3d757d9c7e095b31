using VatWatch.Sessions.Entries;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.LogBook.Writing;

/// <summary>Quantities as a dyer types them into a form: "2 oz", "50 g", "1.5 gal", or a bare number in the unit that the page shows.</summary>
internal static class DyersQuantity
{
    /// <summary>"oz" or "g".</summary>
    public static string MassUnit(this DisplayUnits units) => units.IsUs ? "oz" : "g";

    /// <summary>"gal" or "L".</summary>
    public static string VolumeUnit(this DisplayUnits units) => units.IsUs ? "gal" : "L";

    /// <summary>The unit in which a material is told.</summary>
    public static string UnitOf(this DisplayUnits units, Material material) => material.Unit() == "g" ? units.MassUnit() : units.VolumeUnit();

    public static string WithUnit(string text, string unit) => Typed.TryNumber(text, out _) ? $"{Typed.Quantity(text)} {unit}".TrimEnd() : Typed.Quantity(text);

    /// <summary>Reads an amount of a material, in the material's own unit.</summary>
    public static bool TryAmount(string text, Material material, DisplayUnits units, out double amount) =>
        (material.Unit() == "g" ? QuantityKind.Mass : QuantityKind.Volume).TryParse(WithUnit(text, units.UnitOf(material)), out amount);

    /// <summary>Reads a weight, g.</summary>
    public static bool TryMass(string text, DisplayUnits units, out double grams) => QuantityKind.Mass.TryParse(WithUnit(text, units.MassUnit()), out grams);

    /// <summary>Reads a short time, s.</summary>
    public static bool TrySeconds(string text, out double seconds) => QuantityKind.Duration.TryParse(WithUnit(text, "s"), out seconds);

    /// <summary>What is wanted, for a sentence.</summary>
    public static string Wanted(Material material, DisplayUnits units) => material.Unit() == "g"
        ? $"a weight such as \"2 {units.MassUnit()}\" or \"50 g\", or a bare number in {units.MassUnit()}"
        : $"a volume such as \"1.5 {units.VolumeUnit()}\" or \"2 L\", or a bare number in {units.VolumeUnit()}";
}
