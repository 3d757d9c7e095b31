using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Tests.Electrodes;

// Worked by hand with Nordstrom's ZoBell value (430 mV at 25 °C) and the USGS potentials of 3 mol/L (209 at 25 °C, 189 at 50 °C).
public sealed class OrpOffsetTests
{
    private static readonly OrpOffset Offset =
        OrpOffset.FromCheck(CheckSolution.ZoBellNordstrom, ReferenceElectrode.SilverChloride3MUsgs, 25, 214);

    [Fact]
    public void A_probe_7_mV_low_is_found_out()
    {
        Assert.Equal(7, Offset.Millivolts, 0.5);
        Assert.False(Offset.Extrapolated);
    }

    [Fact]
    public void The_vat_is_corrected_and_carried_to_the_hydrogen_scale()
    {
        var corrected = Offset.Correct(-640);
        Assert.Equal(-633, corrected, 0.5);
        Assert.Equal(-444, RedoxPotential.ToShe(corrected, ReferenceElectrode.SilverChloride3MUsgs, 50).Value, 0.5);
    }

    // Limits: new within 15 mV, usable within 50 mV, a maker's print.
    [Theory]
    [InlineData(-15, ElectrodeVerdict.Good)]
    [InlineData(15.1, ElectrodeVerdict.Worn)]
    [InlineData(-50.1, ElectrodeVerdict.Unfit)]
    public void The_size_of_the_offset_judges_the_probe(double offset, ElectrodeVerdict verdict)
        => Assert.Equal(verdict, new OrpOffset(offset).Judge());

    [Fact]
    public void A_check_in_a_hot_solution_is_flagged()
        => Assert.True(OrpOffset.FromCheck(CheckSolution.ZoBell, ReferenceElectrode.SilverChloride3M, 45, 190).Extrapolated);

    [Fact]
    public void What_is_not_a_number_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Offset.Correct(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => OrpOffset.FromCheck(CheckSolution.Light, ReferenceElectrode.SilverChloride3M, 25, double.NaN));
    }
}
