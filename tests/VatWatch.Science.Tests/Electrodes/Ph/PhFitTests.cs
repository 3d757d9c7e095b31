using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Science.Tests.Electrodes.Ph;

// Expected figures: worked by hand from s = (E1 - E2)/(pH2 - pH1), E7 = E1 + s (pH1 - 7), slope % = 100 s / S(T_c), where S is
// the Nernst slope with the CODATA 2018 constants.
public sealed class PhFitTests
{
    private static readonly PhPoint At4 = new(178.0, 4.01, 25);
    private static readonly PhPoint At7 = new(5.0, 7.00, 25);
    private static readonly PhPoint At10 = new(-170.0, 10.01, 25);

    [Fact]
    public void Two_buffers_at_25C()
    {
        var line = PhFit.TwoPoints(At7, At10);
        Assert.Equal(58.1395, line.SlopeMillivoltsPerPh, 0.00005);
        Assert.Equal(98.28, line.SlopePercent, 0.005);
        Assert.Equal(5.0, line.OffsetMillivolts, 1e-9);
    }

    [Fact]
    public void The_slope_at_50C_is_judged_against_the_ideal_slope_at_50C()
    {
        var line = PhFit.TwoPoints(new PhPoint(-2.0, 6.833, 50), new PhPoint(-181.0, 9.828, 50));
        Assert.Equal(59.766, line.SlopeMillivoltsPerPh, 0.0005);
        Assert.Equal(93.21, line.SlopePercent, 0.005);
        Assert.Equal(-11.98, line.OffsetMillivolts, 0.005);
    }

    [Fact]
    public void Three_buffers_by_least_squares()
    {
        var fit = PhFit.LeastSquares([At4, At7, At10]);
        Assert.Equal(58.000, fit.Line.SlopeMillivoltsPerPh, 0.0005);
        Assert.Equal(98.04, fit.Line.SlopePercent, 0.005);
        Assert.Equal(4.72, fit.Line.OffsetMillivolts, 0.005);
        Assert.Equal(-0.14, fit.ResidualsMillivolts[0], 0.005);
        Assert.Equal(0.28, fit.ResidualsMillivolts[1], 0.005);
        Assert.Equal(-0.14, fit.ResidualsMillivolts[2], 0.005);
        Assert.Equal(0.28, fit.ResidualsMillivolts.Max(Math.Abs), 0.005);
    }

    [Fact]
    public void One_buffer_moves_the_offset_and_keeps_the_slope()
    {
        var old = new PhLine(58.1395, 5.0, 25);
        var line = PhFit.OnePoint(new PhPoint(-12.0, 7.0, 25), old);
        Assert.Equal(old.SlopeMillivoltsPerPh, line.SlopeMillivoltsPerPh);
        Assert.Equal(-12.0, line.OffsetMillivolts, 1e-9);
    }

    [Fact]
    public void One_warm_buffer_is_read_with_the_slope_of_its_own_temperature()
    {
        // E7 = E1 + s (T / T_c)(pH1 - 7) = -181 + 58.1395 * 323.15 / 298.15 * 2.828 = -2.795
        var line = PhFit.OnePoint(new PhPoint(-181.0, 9.828, 50), new PhLine(58.1395, 5.0, 25));
        Assert.Equal(-2.795, line.OffsetMillivolts, 0.001);
        Assert.Equal(9.828, line.PhAt(-181.0, 50), 1e-9);
    }

    [Fact]
    public void Buffers_of_unequal_temperature_still_give_back_the_electrode_that_made_them()
    {
        // No outside source: an electrode of known slope and offset is read at two temperatures and must be found again.
        var electrode = new PhLine(57.5, -8, 22);
        var line = PhFit.TwoPoints(
            new PhPoint(electrode.MillivoltsAt(7.04, 15), 7.04, 15), new PhPoint(electrode.MillivoltsAt(9.93, 35), 9.93, 35));
        Assert.Equal(25, line.TemperatureC);
        Assert.Equal(electrode.SlopeAt(25), line.SlopeMillivoltsPerPh, 1e-9);
        Assert.Equal(-8, line.OffsetMillivolts, 1e-9);
    }

    [Fact]
    public void A_voltage_that_rises_with_pH_is_refused_as_swapped()
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => PhFit.TwoPoints(At7 with { BufferPh = 10.01 }, At10 with { BufferPh = 7 }));
        Assert.Contains("fall of the voltage for one pH is -", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Buffers_too_near_each_other_and_single_points_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PhFit.TwoPoints(At7, At7 with { BufferPh = 7.2, ElectrodeMillivolts = -7 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => PhFit.LeastSquares([At7]));
        Assert.Throws<ArgumentOutOfRangeException>(() => PhFit.LeastSquares([At7, At10 with { ElectrodeMillivolts = double.NaN }]));
    }
}
