using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Tests.Electrodes;

public sealed class WaterStabilityTests
{
    // Source: -59.16 pH mV at 25 °C (textbook), to whole mV at pH 11.
    [Fact]
    public void The_hydrogen_line_at_pH_11()
    {
        var hydrogen = WaterStability.HydrogenLineMillivolts(11, 25);
        Assert.Equal(-651, hydrogen, 0.5);
        Assert.Equal(-858, RedoxPotential.FromShe(hydrogen, ReferenceElectrode.SilverChloride3M, 25).Value, 0.5);
        Assert.Equal(-850, RedoxPotential.FromShe(hydrogen, ReferenceElectrode.SilverChlorideSaturated, 25).Value, 0.5);
    }

    [Fact]
    public void What_is_not_a_number_is_refused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => WaterStability.HydrogenLineMillivolts(double.NaN, 25));
}
