using VatWatch.Science.Thermometry;

namespace VatWatch.Science.Tests.Thermometry;

// Worked by hand: 10 kΩ in series, 3.3 V, thermistor of 3603 Ω to ground.
public sealed class ThermistorDividerTests
{
    [Fact]
    public void The_tap_of_a_divider_gives_the_thermistor()
    {
        // One count of a 16-bit converter at ±4.096 V is 125 µV; code 6993 stands for 0.874125 V.
        var ohm = ThermistorDivider.ToGroundOhm(10_000, 6993 * 125e-6, 3.3);
        Assert.Equal(3603.3, ohm, 0.06);
        Assert.Equal(49.98, SteinhartHartThermistor.TenKilohmCurve3.TemperatureC(ohm).Value, 0.006);
    }

    [Fact]
    public void A_sagging_supply_does_not_matter_when_the_ratio_is_read()
        => Assert.Equal(
            ThermistorDivider.ToGroundOhm(10_000, 0.874125 * 0.94, 3.3 * 0.94),
            ThermistorDivider.ToGroundOhm(10_000, 0.874125 / 3.3),
            1e-9);

    [Fact]
    public void A_thermistor_to_the_supply_is_the_divider_upside_down()
        => Assert.Equal(ThermistorDivider.ToGroundOhm(10_000, 0.3), ThermistorDivider.ToSupplyOhm(10_000, 0.7), 1e-9);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void A_short_or_an_open_circuit_is_refused_by_name(double ratio)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => ThermistorDivider.ToGroundOhm(10_000, ratio));
        Assert.Contains("a short or an open circuit", refusal.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => ThermistorDivider.ToSupplyOhm(10_000, ratio));
    }

    [Fact]
    public void A_divider_without_supply_or_resistor_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ThermistorDivider.ToGroundOhm(10_000, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThermistorDivider.ToGroundOhm(0, 0.5));
    }
}
