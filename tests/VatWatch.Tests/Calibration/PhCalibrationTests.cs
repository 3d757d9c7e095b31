using VatWatch.Calibration;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Tests.Calibration;

/// <summary>Figures: worked examples, each computed by hand from the Nernst equation with CODATA 2018 constants; buffers of NIST and IUPAC.</summary>
public sealed class PhCalibrationTests
{
    [Fact]
    public void Two_buffers_at_25_C_read_a_liquor_of_50_C_with_the_slope_of_50_C()
    {
        // 175 mV / 3.01 pH = 58.1395; ideal 59.1593. At 323.15 K the slope is 63.0146, so -205 mV is 7 + 210 / 63.0146 = 10.3326.
        var made = Electrodes.TwoBuffers;
        Assert.Equal(58.1395, made.Line.SlopeMillivoltsPerPh, 4);
        Assert.Equal(98.28, made.Line.SlopePercent, 2);
        Assert.Equal(5.0, made.Line.OffsetMillivolts, 10);
        Assert.Equal(10.3326, made.ValueAt(-205, 50), 4);
        Assert.Equal(10.612, made.ValueAt(-205, 25), 3);
    }

    [Fact]
    public void Three_buffers_give_the_least_squares_line_with_its_residuals()
    {
        var made = PhCalibration.Through(
            [Electrodes.Point(4.01, 178.0, 25), Electrodes.Point(7.00, 5.0, 25), Electrodes.Point(10.01, -170.0, 25)], PhFitKind.Line, null);
        Assert.Equal(58.000, made.Line.SlopeMillivoltsPerPh, 3);
        Assert.Equal(98.04, made.Line.SlopePercent, 2);
        Assert.Equal(4.72, made.Line.OffsetMillivolts, 2);
        Assert.Equal([-0.14, 0.28, -0.14], made.ResidualsMillivolts.Select(one => Math.Round(one, 2)));
    }

    [Fact]
    public void Three_buffers_in_pieces_read_each_liquor_between_its_own_two()
    {
        var made = PhCalibration.Through(
            [Electrodes.Point(10.01, -170.0, 25), Electrodes.Point(4.01, 178.0, 25), Electrodes.Point(7.00, 5.0, 25)], PhFitKind.Pieces, null);
        Assert.Equal([97.80, 98.28], made.Lines.Select(line => Math.Round(line.SlopePercent, 2)));
        Assert.Equal(10.01, made.ValueAt(-170, 25), 10);
        Assert.Equal(4.01, made.ValueAt(178, 25), 10);
    }

    [Fact]
    public void Buffers_at_50_C_are_judged_by_the_ideal_slope_of_50_C()
    {
        // NIST-IUPAC set at 50 °C: phosphate 6.833, carbonate 9.828. 179 mV / 2.995 pH = 59.766 of 64.120, not of 59.159.
        var made = PhCalibration.Through(
            [PhCalibrationPoint.In(PhBuffers.Phosphate, -2.0, 50), PhCalibrationPoint.In(PhBuffers.Carbonate, -181.0, 50)], PhFitKind.Line, null);
        Assert.Equal(59.766, made.Line.SlopeMillivoltsPerPh, 3);
        Assert.Equal(93.21, made.Line.SlopePercent, 2);
        Assert.Equal(-11.98, made.Line.OffsetMillivolts, 2);
    }

    [Fact]
    public void One_buffer_keeps_the_slope_of_the_calibration_before()
    {
        var made = PhCalibration.Through([Electrodes.Point(10.01, -160.0, 25)], PhFitKind.Line, Electrodes.TwoBuffers);
        Assert.Equal(Electrodes.TwoBuffers.Line.SlopeMillivoltsPerPh, made.Line.SlopeMillivoltsPerPh);
        Assert.Equal(15.0, made.Line.OffsetMillivolts, 6);
        Assert.Equal(10.01, made.ValueAt(-160, 25), 10);
    }

    [Fact]
    public void One_buffer_of_a_new_electrode_has_the_ideal_slope()
    {
        var made = PhCalibration.Through([Electrodes.Point(7.00, 12.0, 20)], PhFitKind.Line, null);
        Assert.Equal(100, made.Line.SlopePercent, 10);
        Assert.Equal(12, made.Line.OffsetMillivolts, 10);
    }

    [Theory]
    [InlineData(7.00, 7.20)]
    [InlineData(10.01, 7.00)]
    public void Buffers_that_make_no_slope_are_refused(double first, double second) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PhCalibration.Through(
            [Electrodes.Point(first, 5, 25), Electrodes.Point(second, -170, 25)], PhFitKind.Line, null));
}
