using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Vats.Configuration;

public sealed class QuantityKindTests
{
    // Exact definitions: NIST SP 811 (2008), appendix B: °F, US gallon 3.785411784 L, imperial gallon 4.54609 L, ounce 28.349523125 g, pound 453.59237 g.
    [Theory]
    [InlineData("temperature", "113 °F", 45)]
    [InlineData("temperature", "45 °C", 45)]
    [InlineData("temperature", "318.15 K", 45)]
    [InlineData("temperature", "113°F", 45)]
    [InlineData("difference", "1.8 °F", 1)]
    [InlineData("difference", "0.5 °C", 0.5)]
    [InlineData("difference", "0.5 K", 0.5)]
    [InlineData("volume", "40 gal", 151.41647136)]
    [InlineData("volume", "40 US gal", 151.41647136)]
    [InlineData("volume", "10 imp gal", 45.4609)]
    [InlineData("volume", "200 L", 200)]
    [InlineData("volume", "0.2 m³", 200)]
    [InlineData("mass", "250 g", 250)]
    [InlineData("mass", "2 lb", 907.18474)]
    [InlineData("mass", "4 oz", 113.3980925)]
    [InlineData("potential", "-660 mV", -660)]
    [InlineData("potential", "−0.66 V", -660)]
    [InlineData("rate", "20 mV/h", 20)]
    [InlineData("duration", "5 s", 5)]
    [InlineData("duration", "45 min", 2700)]
    [InlineData("duration", "250 ms", 0.25)]
    [InlineData("duration", "1 h", 3600)]
    [InlineData("power", "1.5 kW", 1500)]
    [InlineData("length", "50 cm", 0.5)]
    [InlineData("resistance", "10 kΩ", 10_000)]
    [InlineData("percent", "40 %", 40)]
    [InlineData("alkalinity", "2 meq/L", 2)]
    [InlineData("alkalinity", "0.5meq/l", 0.5)]
    public void A_quantity_with_its_unit_is_read_in_the_canonical_unit(string kind, string text, double canonical)
    {
        Assert.True(Kind(kind).TryParse(text, out var value), text);
        Assert.Equal(canonical, value, 9 * Math.Max(1, Math.Abs(canonical)) * 1e-12);
    }

    [Theory]
    [InlineData("temperature", "113")]
    [InlineData("temperature", "")]
    [InlineData("temperature", "  ")]
    [InlineData("temperature", "°F")]
    [InlineData("temperature", "warm")]
    [InlineData("temperature", "113 mV")]
    [InlineData("temperature", "1e400 °F")]
    [InlineData("temperature", "NaN °F")]
    [InlineData("temperature", "∞ °F")]
    [InlineData("volume", "40")]
    [InlineData("volume", "40 galore")]
    [InlineData("duration", "5")]
    [InlineData("duration", "00:00:05")]
    [InlineData("potential", "-660 mv/h")]
    [InlineData("rate", "20 mV")]
    [InlineData("alkalinity", "2")]
    [InlineData("alkalinity", "2 x meq/L")]
    [InlineData("alkalinity", "2xmeq/L")]
    [InlineData("alkalinity", "100 mg/L")]
    public void Anything_else_is_refused(string kind, string text) => Assert.False(Kind(kind).TryParse(text, out _), text);

    [Fact]
    public void A_decimal_comma_is_not_silently_read_as_thousands()
    {
        // "1,5 kW" in invariant culture would be 15 kW.
        Assert.False(QuantityKind.Power.TryParse("1,5 kW", out var watts) && watts != 1500, $"read as {watts} W");
    }

    // By molar mass: CaCO3 100.087 g/mol and CaO 56.077 g/mol, two equivalents each; a German degree is 10 mg/L of CaO.
    [Theory]
    [InlineData("50.0435 mg/L CaCO3")]
    [InlineData("50.0435 mg/L as CaCO3")]
    [InlineData("50.0435 ppm CaCO3")]
    [InlineData("2.80385 °dH")]
    public void Alkalinity_is_read_as_tests_of_water_print_it(string text)
    {
        Assert.True(QuantityKind.Alkalinity.TryParse(text, out var meqPerLitre), text);
        Assert.Equal(1, meqPerLitre, 0.0002);
    }

    private static QuantityKind Kind(string word) => word switch
    {
        "temperature" => QuantityKind.Temperature,
        "difference" => QuantityKind.TemperatureDifference,
        "volume" => QuantityKind.Volume,
        "mass" => QuantityKind.Mass,
        "potential" => QuantityKind.Potential,
        "rate" => QuantityKind.PotentialRate,
        "duration" => QuantityKind.Duration,
        "power" => QuantityKind.Power,
        "length" => QuantityKind.Length,
        "resistance" => QuantityKind.Resistance,
        "alkalinity" => QuantityKind.Alkalinity,
        "carry-over" => QuantityKind.CarryOver,
        _ => QuantityKind.Percent,
    };
}
