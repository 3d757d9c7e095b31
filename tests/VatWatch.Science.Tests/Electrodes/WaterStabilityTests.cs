using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Tests.Electrodes;

public sealed class WaterStabilityTests
{
    // Source: -59.16 pH and 1229 - 59.16 pH mV at 25 °C (textbook), to whole mV at pH 11.
    [Fact]
    public void Both_lines_at_pH_11()
    {
        var hydrogen = WaterStability.HydrogenLineMillivolts(11, 25);
        var oxygen = WaterStability.OxygenLineMillivolts(11, 25).Value;
        Assert.Equal(-651, hydrogen, 0.5);
        Assert.Equal(-858, RedoxPotential.FromShe(hydrogen, ReferenceElectrode.SilverChloride3M, 25).Value, 0.5);
        Assert.Equal(-850, RedoxPotential.FromShe(hydrogen, ReferenceElectrode.SilverChlorideSaturated, 25).Value, 0.5);
        Assert.Equal(578, oxygen, 0.5);
        Assert.Equal(371, RedoxPotential.FromShe(oxygen, ReferenceElectrode.SilverChloride3M, 25).Value, 0.5);
    }

    // The span between the lines is the standard potential of the fuel cell: 1229 mV at 25 °C, 1184 mV at 80 °C (textbook).
    [Theory]
    [InlineData(25, 1229)]
    [InlineData(80, 1184)]
    public void The_span_between_the_lines_does_not_depend_on_pH(double temperatureC, double span)
        => Assert.All(
            [7.0, 10.0, 13.0],
            ph => Assert.Equal(
                span,
                WaterStability.OxygenLineMillivolts(ph, temperatureC).Value - WaterStability.HydrogenLineMillivolts(ph, temperatureC),
                2.0));

    [Fact]
    public void What_is_not_a_number_is_refused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => WaterStability.HydrogenLineMillivolts(double.NaN, 25));
}
