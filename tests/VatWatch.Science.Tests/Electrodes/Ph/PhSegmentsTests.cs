using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Science.Tests.Electrodes.Ph;

public sealed class PhSegmentsTests
{
    private static readonly PhSegments Segments = PhSegments.Through(
        [new PhPoint(-170.0, 10.01, 25), new PhPoint(178.0, 4.01, 25), new PhPoint(5.0, 7.00, 25)]);

    // Worked by hand: (178 - 5)/2.99 and (5 + 170)/3.01 mV per pH, over 59.159.
    [Fact]
    public void Neighbouring_buffers_are_paired_in_order()
    {
        Assert.Equal(57.860, Segments.Lines[0].SlopeMillivoltsPerPh, 0.0005);
        Assert.Equal(97.80, Segments.Lines[0].SlopePercent, 0.005);
        Assert.Equal(58.140, Segments.Lines[1].SlopeMillivoltsPerPh, 0.0005);
        Assert.Equal(98.28, Segments.Lines[1].SlopePercent, 0.005);
    }

    [Theory]
    [InlineData(178.0, 4.01)]
    [InlineData(91.5, 5.505)]
    [InlineData(5.0, 7.00)]
    [InlineData(-82.5, 8.505)]
    [InlineData(-170.0, 10.01)]
    public void Each_buffer_and_each_middle_is_read_on_its_own_piece(double millivolts, double ph)
    {
        var reading = Segments.PhAt(millivolts, 25);
        Assert.Equal(ph, reading.Value, 1e-9);
    }

    [Fact]
    public void Between_buffers_the_bracketing_pair_rules_at_vat_temperature_too()
        => Assert.Equal(new Estimate(Segments.Lines[1].PhAt(-120, 45), false), Segments.PhAt(-120, 45));

    [Theory]
    [InlineData(-205.0, true)]
    [InlineData(200.0, true)]
    [InlineData(0.0, false)]
    public void A_sample_beyond_the_outermost_buffers_is_flagged(double millivolts, bool extrapolated)
        => Assert.Equal(extrapolated, Segments.PhAt(millivolts, 25).Extrapolated);

    [Fact]
    public void One_buffer_makes_no_piece()
        => Assert.Throws<ArgumentOutOfRangeException>(() => PhSegments.Through([new PhPoint(5.0, 7.00, 25)]));
}
