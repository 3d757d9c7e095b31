using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate.SodaAsh;

/// <summary>
/// Checked against doses at 45 °C computed by a separate program (Python) for half this volume. Doses go with the volume, so its grams are doubled; the
/// tolerance is the rounding of that program's printed table.
/// </summary>
public class SodaAshDosingTests
{
    private const double VolumeL = 250;
    private const double TemperatureC = 45;
    private const double TableToVolume = 2;

    [Fact]
    public void Pure_water_takes_the_computed_doses()
    {
        Check(9, SodaAshDosing.For(default, VolumeL, TemperatureC, 10));
        Check(73, SodaAshDosing.For(default, VolumeL, TemperatureC, 10.5));
        Check(1490, SodaAshDosing.For(default, VolumeL, TemperatureC, 11));
    }

    [Theory]
    [InlineData(1, 8.0, 21, 125, 1890)]
    [InlineData(1, 9.0, 17, 112, 1800)]
    [InlineData(1, 9.5, 11, 93, 1670)]
    [InlineData(2, 8.0, 34, 183, 2290)]
    [InlineData(2, 9.0, 27, 159, 2140)]
    [InlineData(2, 9.5, 17, 126, 1930)]
    [InlineData(4, 8.0, 62, 314, 3140)]
    [InlineData(4, 9.0, 48, 264, 2850)]
    [InlineData(4, 9.5, 29, 197, 2450)]
    public void Doses_from_pH_and_alkalinity_agree(double alkalinityMeq, double ph, double to10, double to10And5, double to11)
    {
        Check(to10, SodaAshDosing.ForAlkalinity(ph, alkalinityMeq / 1000, VolumeL, TemperatureC, 10));
        Check(to10And5, SodaAshDosing.ForAlkalinity(ph, alkalinityMeq / 1000, VolumeL, TemperatureC, 10.5));
        var far = SodaAshDosing.ForAlkalinity(ph, alkalinityMeq / 1000, VolumeL, TemperatureC, 11);
        Check(to11, far);
        Assert.Equal(SodaAshOutcome.NotReachable, far.Outcome);
        Assert.Null(far.Grams);
        Assert.Null(far.FirstPortionGrams);
    }

    // A bath that had 2 g/L of soda ash and fell to a pH: doses by carbon dioxide, then by acid, to 10.0 and to 10.5.
    [Theory]
    [InlineData(8.0, 850, 3960, 369, 1700)]
    [InlineData(9.0, 603, 3010, 296, 1470)]
    [InlineData(9.5, 311, 1880, 183, 1100)]
    [InlineData(10.0, 0, 685, 0, 520)]
    public void Both_ways_of_falling_give_the_computed_doses(double ph, double gas10, double gas10And5, double acid10, double acid10And5)
    {
        // A hair above pH 10 so that rounding does not turn "already there" into a dose of nothing.
        var to10 = SodaAshDosing.ForLog(ph == 10 ? 10 + 1e-9 : ph, 2 * VolumeL, VolumeL, TemperatureC, 10);
        var to10And5 = SodaAshDosing.ForLog(ph, 2 * VolumeL, VolumeL, TemperatureC, 10.5);
        Check(gas10, to10.ByCarbonDioxide!.Value);
        Check(acid10, to10.ByAcid);
        Check(gas10And5, to10And5.ByCarbonDioxide!.Value);
        Check(acid10And5, to10And5.ByAcid);
        Assert.True(to10And5.LogExplainsPh);
        Assert.True(to10.LowGrams <= to10.HighGrams);
    }

    [Fact]
    public void Eleven_is_not_reachable_with_soda_ash_in_a_fallen_bath()
    {
        var range = SodaAshDosing.ForLog(9, 2 * VolumeL, VolumeL, TemperatureC, 11);
        Assert.Equal(SodaAshOutcome.NotReachable, range.ByAcid.Outcome);
        Assert.Equal(SodaAshOutcome.NotReachable, range.ByCarbonDioxide!.Value.Outcome);

        // The same program: 40 to 160 g/L, formally.
        Assert.InRange(range.ByAcid.FormalGrams!.Value / VolumeL, 40, 160);
        Assert.InRange(range.ByCarbonDioxide!.Value.FormalGrams!.Value / VolumeL, 40, 160);
        Assert.Null(range.LowGrams);
        Assert.Null(range.HighGrams);
    }

    // Doses that return a 2 g/L bath at 45 °C after a reducing agent's acid (meq/kg) to 10.0 and 10.5; the same program.
    [Theory]
    [InlineData(0.25, 0, 0, 173)]
    [InlineData(0.5, 0, 28, 609)]
    [InlineData(0.5, 0.5, 92, 807)]
    [InlineData(1, 0, 351, 1640)]
    [InlineData(1, 1, 495, 2120)]
    public void Doses_after_reducing_agent_and_dye_agree(double reducer, double dye, double to10, double to10And5)
    {
        var acid = AlkaliDemand.ThioureaDioxideByAir.AcidMolal(reducer, 1, 45) + AlkaliDemand.LeucoIndigo.AcidMolal(dye, 1, 45);
        var bath = default(BathComposition).Add(AlkaliProduct.SodaAsh, 2, 1, 45).AddAcid(acid);
        Check(to10, SodaAshDosing.For(bath, VolumeL, TemperatureC, 10), 0.015);
        Check(to10And5, SodaAshDosing.For(bath, VolumeL, TemperatureC, 10.5), 0.015);
    }

    // More than 10 g/L is no answer: refresh the bath. Counted with what is in it already; common practice, no source.
    [Fact]
    public void The_limit_counts_the_soda_ash_already_in_the_bath()
    {
        var within = SodaAshDosing.ForLog(8, 2 * VolumeL, VolumeL, TemperatureC, 10).ByCarbonDioxide!.Value;
        Assert.Equal(SodaAshOutcome.Reachable, within.Outcome);
        Assert.Equal(2 + 1700 / VolumeL, within.GramsPerLitreAfter!.Value, 0.01);
        var beyond = SodaAshDosing.ForLog(9.5, 2 * VolumeL, VolumeL, TemperatureC, 10.5).ByAcid;
        Assert.Equal(2 + 2200 / VolumeL, beyond.GramsPerLitreAfter!.Value, 0.01);
        Assert.Equal(SodaAshOutcome.NotReachable, beyond.Outcome);
    }

    [Fact]
    public void A_dose_reaches_the_wanted_pH()
    {
        var bath = new BathComposition(0.03, 0.02, 0.004);
        var dose = SodaAshDosing.For(bath, 60, 42, 10.2);
        Assert.Equal(10.2, BathEquilibrium.Solve(bath.Add(AlkaliProduct.SodaAsh, dose.Grams!.Value, 60, 42), 42).Ph, 1e-6);
    }

    // Portions: a third of the dose, at most 0.8 g/L. Common practice, no source.
    [Fact]
    public void The_first_portion_is_a_third_and_never_above_the_step()
    {
        var small = SodaAshDosing.ForAlkalinity(9, 0.001, 60, TemperatureC, 10);
        Assert.Equal(small.Grams!.Value / 3, small.FirstPortionGrams!.Value, 1e-9);
        var large = SodaAshDosing.ForLog(8, 120, 60, TemperatureC, 10);
        Assert.Equal(0.8 * 60, large.FirstPortionGrams!.Value, 1e-9);
    }

    [Fact]
    public void A_bath_above_the_target_gets_nothing()
    {
        var dose = SodaAshDosing.For(new(0.04, 0.02), 60, TemperatureC, 10);
        Assert.Equal(SodaAshOutcome.AlreadyThere, dose.Outcome);
        Assert.Equal(0, dose.Grams);
    }

    [Fact]
    public void A_bath_above_what_its_log_can_give_is_told_apart()
    {
        var range = SodaAshDosing.ForLog(11.5, 60, 60, TemperatureC, 12);
        Assert.False(range.LogExplainsPh);
        Assert.True(range.AcidMolal < 0);
        Assert.Null(range.ByCarbonDioxide);
    }

    [Fact]
    public void A_pH_that_does_not_go_with_the_alkalinity_is_refused()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => SodaAshDosing.ForAlkalinity(12, 0.001, 60, 45, 12.5));
        Assert.Contains("alkalinity of 1 meq/kg", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => SodaAshDosing.For(default, -1, 45, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => SodaAshDosing.For(default, 60, 45, double.NaN));
    }

    private static void Check(double tableGrams, SodaAshDose dose, double share = 0.0051)
    {
        var grams = dose.FormalGrams!.Value / TableToVolume;
        Assert.Equal(tableGrams, grams, Math.Max(0.51, share * tableGrams));
    }
}
