using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Science.Tests.Electrodes.Ph;

public sealed class PhLineTests
{
    private static readonly PhLine Line = PhFit.TwoPoints(new PhPoint(5.0, 7.00, 25), new PhPoint(-170.0, 10.01, 25));

    // Worked by hand: pH = 7 - (E - E7)/(s T/T_c), s = 58.1395 mV, E7 = 5.0 mV at 25 °C.
    [Fact]
    public void A_warm_liquor_is_read_with_the_slope_of_its_own_temperature()
    {
        Assert.Equal(63.0146, Line.SlopeAt(50), 0.00005);
        Assert.Equal(10.3326, Line.PhAt(-205.0, 50), 0.00005);
    }

    [Fact]
    public void Forgetting_the_temperature_would_read_a_quarter_of_a_pH_too_high()
        => Assert.Equal(10.612, Line.PhAt(-205.0, 25), 0.0005);

    [Fact]
    public void Millivolts_and_pH_are_each_others_reverse()
        => Assert.Equal(11.2, Line.PhAt(Line.MillivoltsAt(11.2, 47), 47), 1e-12);

    [Fact]
    public void The_ideal_line_has_the_whole_slope()
        => Assert.Equal(100, PhLine.Ideal(43).SlopePercent, 1e-9);

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new PhLine(0, 0, 25));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PhLine(59, double.NaN, 25));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PhLine(59, 0, -280));
        Assert.Throws<ArgumentOutOfRangeException>(() => Line.PhAt(double.NaN, 25));
        Assert.Throws<ArgumentOutOfRangeException>(() => Line.PhAt(0, double.NaN));
    }
}
