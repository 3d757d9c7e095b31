using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// Expected figures: f0 = a/d, f1 = 1/d, f2 = b/d, a = 10^(pKa1 - pH), b = 10^(pH - pKa2), d = 1 + a + b, with pKa 7.97 and 12.68
// (after Etters and Hou 1991), to four decimals.
public sealed class LeucoIndigoAcidityTests
{
    private static readonly LeucoIndigoAcidity Acidity = LeucoIndigoAcidity.Published;

    [Theory]
    [InlineData(8.0, 0.4827, 0.5173, 0.0000)]
    [InlineData(8.5, 0.2279, 0.7721, 0.0001)]
    [InlineData(9.0, 0.0853, 0.9145, 0.0002)]
    [InlineData(9.5, 0.0286, 0.9707, 0.0006)]
    [InlineData(10.0, 0.0092, 0.9887, 0.0021)]
    [InlineData(10.325, 0.0044, 0.9912, 0.0044)]
    [InlineData(10.5, 0.0029, 0.9905, 0.0065)]
    [InlineData(11.0, 0.0009, 0.9786, 0.0204)]
    [InlineData(11.5, 0.0003, 0.9378, 0.0620)]
    [InlineData(12.0, 0.0001, 0.8271, 0.1728)]
    [InlineData(12.5, 0.0000, 0.6021, 0.3978)]
    [InlineData(13.0, 0.0000, 0.3237, 0.6763)]
    public void The_shares_agree_with_the_table(double ph, double unionised, double monoIon, double diIon)
    {
        var fractions = Acidity.FractionsAt(ph);
        Assert.Equal(unionised, fractions.Unionised, 0.000051);
        Assert.Equal(monoIon, fractions.MonoIon, 0.000051);
        Assert.Equal(diIon, fractions.DiIon, 0.000051);
        Assert.Equal(1, fractions.Unionised + fractions.MonoIon + fractions.DiIon, 1e-12);
    }

    [Fact]
    public void The_mono_ion_peaks_half_way_between_the_constants()
    {
        Assert.Equal(10.325, Acidity.PeakPhAt(), 1e-9);
        Assert.Equal(0.9912, Acidity.FractionsAt(10.325).MonoIon, 0.00005);
    }

    [Theory]
    [InlineData(0.99, 10.10, 10.55)]
    [InlineData(0.98, 9.69, 10.96)]
    [InlineData(0.95, 9.26, 11.39)]
    [InlineData(0.90, 8.93, 11.72)]
    public void The_peak_is_a_flat_plateau(double share, double fromPh, double toPh)
    {
        const double slack = 0.011;
        Assert.True(Acidity.FractionsAt(fromPh + slack).MonoIon >= share);
        Assert.True(Acidity.FractionsAt(toPh - slack).MonoIon >= share);
        Assert.True(Acidity.FractionsAt(fromPh - slack).MonoIon < share);
        Assert.True(Acidity.FractionsAt(toPh + slack).MonoIon < share);
    }

    [Fact]
    public void A_slope_with_temperature_moves_the_whole_curve()
    {
        var sliding = new LeucoIndigoAcidity(PKaPerKelvin: -0.01);
        Assert.Equal(10.125, sliding.PeakPhAt(45), 1e-9);
        Assert.Equal(Acidity.FractionsAt(10.2).MonoIon, sliding.FractionsAt(10.0, 45).MonoIon, 1e-12);
    }

    [Theory]
    [InlineData(-2)]
    [InlineData(16)]
    public void The_ends_of_what_a_bath_can_be_give_clean_shares(double ph)
    {
        var fractions = Acidity.FractionsAt(ph);
        Assert.Equal(1, fractions.Unionised + fractions.MonoIon + fractions.DiIon, 1e-12);
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LeucoIndigoAcidity(12, 8));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LeucoIndigoAcidity(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Acidity.FractionsAt(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Acidity.FractionsAt(17));
    }
}
