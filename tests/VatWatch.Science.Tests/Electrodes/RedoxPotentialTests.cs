using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Tests.Electrodes;

// Worked by hand from the 25 °C potentials 207 (3 M), 199 (saturated), 244.4 mV (calomel): ISO 11271 and USGS A6.5.
public sealed class RedoxPotentialTests
{
    private static readonly ReferenceElectrode ThreeMolar = ReferenceElectrode.SilverChloride3M;

    [Theory]
    [InlineData("SHE", -493)]
    [InlineData("Ag/AgCl saturated KCl", -692)]
    [InlineData("SCE", -737)]
    public void A_strong_vat_on_three_scales(string scale, double millivolts)
        => Assert.Equal(millivolts, RedoxPotential.Convert(-700, ThreeMolar, ReferenceElectrode.Parse(scale), 25).Value, 0.5);

    [Theory]
    [InlineData("SHE", -336)]
    [InlineData("Ag/AgCl 3 M KCl", -543)]
    [InlineData("Ag/AgCl saturated KCl", -535)]
    public void A_woad_vat_published_against_calomel(string scale, double millivolts)
        => Assert.Equal(
            millivolts,
            RedoxPotential.Convert(-580, ReferenceElectrode.SaturatedCalomel, ReferenceElectrode.Parse(scale), 25).Value, 0.5);

    // At 45 °C a straight-line fit of the field table gives 192.4 mV for 3 M; the table's own row is 192.
    [Fact]
    public void The_electrodes_own_potential_is_taken_at_the_vats_temperature()
        => Assert.Equal(-508, RedoxPotential.ToShe(-700, ThreeMolar, 45).Value, 0.5);

    [Fact]
    public void There_and_back_is_the_same_reading()
        => Assert.Equal(-640, RedoxPotential.FromShe(RedoxPotential.ToShe(-640, ThreeMolar, 43).Value, ThreeMolar, 43).Value, 1e-9);

    [Fact]
    public void A_scale_needs_no_table_to_be_carried_to_itself()
        => Assert.Equal(Estimate.WithinRange(-640), RedoxPotential.Convert(-640, ThreeMolar, ThreeMolar, 90));

    [Fact]
    public void Beyond_an_electrodes_table_the_result_is_flagged()
        => Assert.True(RedoxPotential.ToShe(-640, ThreeMolar, 55).Extrapolated);

    [Fact]
    public void What_is_not_a_number_is_refused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => RedoxPotential.ToShe(double.NaN, ThreeMolar, 25));
}
