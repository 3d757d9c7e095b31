using VatWatch.Science.Electrodes;
using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// Expected figures: E_anchor + S/2 [L(pH) - L(13)], L = log10(10^-2pH + 10^(-pKa1-pH) + 10^(-pKa1-pKa2)), anchor -650 mV against
// silver chloride in 3 mol/L KCl, to whole mV or 0.1 mV.
public sealed class MidpointModelTests
{
    [Theory]
    [InlineData(8.5, -528, -520, -321)]
    [InlineData(9.0, -545, -537, -338)]
    [InlineData(9.5, -561, -553, -354)]
    [InlineData(10.0, -576, -568, -369)]
    [InlineData(10.5, -590, -582, -383)]
    [InlineData(11.0, -605, -597, -398)]
    [InlineData(11.5, -619, -611, -412)]
    [InlineData(12.0, -632, -624, -425)]
    [InlineData(12.5, -643, -635, -436)]
    [InlineData(13.0, -650, -642, -443)]
    public void The_midpoint_agrees_with_the_table_on_three_scales(double ph, double threeMolar, double saturated, double she)
    {
        var midpoint = MidpointModel.Default.MidpointMillivolts(ph, 25);
        Assert.False(midpoint.Extrapolated);
        Assert.Equal(threeMolar, midpoint.Value, 0.51);
        Assert.Equal(saturated, On(ReferenceElectrode.SilverChlorideSaturated), 0.51);
        Assert.Equal(she, On(ReferenceElectrode.StandardHydrogen), 0.51);

        double On(ReferenceElectrode scale)
            => RedoxPotential.Convert(midpoint.Value, ReferenceElectrode.SilverChloride3M, scale, 25).Value;
    }

    [Theory]
    [InlineData(10.5, -590.4)]
    [InlineData(11.5, -619.3)]
    public void To_a_tenth_of_a_millivolt(double ph, double millivolts)
        => Assert.Equal(millivolts, MidpointModel.Default.MidpointMillivolts(ph, 25).Value, 0.051);

    // Bounds: the trade's "-600 mV" for indigo and woad vats at -523 to -558 mV, pH 9 (Padden et al. 1998).
    [Fact]
    public void The_model_meets_the_trades_figure_and_the_woad_vat()
    {
        Assert.Equal(-600, MidpointModel.Default.MidpointMillivolts(11, 25).Value, 10.0);
        Assert.InRange(MidpointModel.Default.MidpointMillivolts(9, 25).Value, -558, -523);
    }

    [Theory]
    [InlineData(5.0, 59.159)]
    [InlineData(10.3, 29.58)]
    [InlineData(15.5, 0)]
    public void The_slope_follows_the_dissociation(double ph, double fallPerPh)
    {
        var fall = MidpointModel.Default.MidpointMillivolts(ph - 0.1, 25).Value - MidpointModel.Default.MidpointMillivolts(ph + 0.1, 25).Value;
        Assert.Equal(fallPerPh, fall / 0.2, 0.3);
    }

    [Fact]
    public void At_pH_11_half_of_the_dye_is_reduced_at_605_mV_below_the_electrode()
        => Assert.Equal(-665.0 + 59.9, MidpointModel.Default.MidpointMillivolts(11, 25).Value, 0.051);

    // Source of the slope: solid indigo, 60 mV per pH (Bond et al. 1997).
    [Fact]
    public void A_straight_slope_turns_about_its_pivot()
    {
        var solid = new MidpointModel { StraightSlopeMillivoltsPerPh = -60 };
        Assert.Equal(MidpointModel.Default.MidpointMillivolts(11, 25).Value, solid.MidpointMillivolts(11, 25).Value, 1e-9);
        Assert.Equal(120, solid.MidpointMillivolts(9, 25).Value - solid.MidpointMillivolts(11, 25).Value, 1e-9);
    }

    [Theory]
    [InlineData(8.4, 25)]
    [InlineData(13.1, 25)]
    [InlineData(11, 61)]
    public void Outside_what_the_model_was_compared_with_it_is_flagged(double ph, double temperatureC)
        => Assert.True(MidpointModel.Default.MidpointMillivolts(ph, temperatureC).Extrapolated);

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new MidpointModel { StraightSlopeMillivoltsPerPh = -61 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new MidpointModel { AnchorMillivolts = double.NaN });
        Assert.Throws<ArgumentOutOfRangeException>(() => MidpointModel.Default.MidpointMillivolts(double.NaN, 25));
    }
}
