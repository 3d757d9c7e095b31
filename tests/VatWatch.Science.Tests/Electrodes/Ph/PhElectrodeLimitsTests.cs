using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Science.Tests.Electrodes.Ph;

// Limits: slope below 85 % refused (laboratory pH-meter guide, 1996), 85 to 105 % (an electrode maker's note); the rest our choice.
public sealed class PhElectrodeLimitsTests
{
    [Theory]
    [InlineData(98.3, 5, ElectrodeVerdict.Good)]
    [InlineData(94.9, 5, ElectrodeVerdict.Worn)]
    [InlineData(102.5, 5, ElectrodeVerdict.Worn)]
    [InlineData(98.3, -20.5, ElectrodeVerdict.Worn)]
    [InlineData(84.9, 5, ElectrodeVerdict.Unfit)]
    [InlineData(105.5, 5, ElectrodeVerdict.Unfit)]
    [InlineData(98.3, 60.5, ElectrodeVerdict.Unfit)]
    public void Slope_and_offset_are_judged_together(double slopePercent, double offset, ElectrodeVerdict verdict)
    {
        var line = new PhLine(slopePercent / 100 * Nernst.SlopeMillivoltsPerPh(40), offset, 40);
        Assert.Equal(verdict, new PhElectrodeLimits().Judge(line));
    }

    [Fact]
    public void Every_limit_is_a_setting()
        => Assert.Equal(
            ElectrodeVerdict.Good,
            new PhElectrodeLimits { WornBelowPercent = 90 }.Judge(new PhLine(0.93 * Nernst.SlopeMillivoltsPerPh(25), 0, 25)));
}
