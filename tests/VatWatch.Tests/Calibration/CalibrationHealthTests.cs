using VatWatch.Calibration;
using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Tests.Calibration;

public sealed class CalibrationHealthTests
{
    private static readonly CalibrationLimits PhLimits = CalibrationLimits.Default(Quantity.Ph);
    private static readonly CalibrationLimits OrpLimits = CalibrationLimits.Default(Quantity.Orp);

    /// <summary>Slope: 95 to 102 % good, below 85 or above 105 % unfit; offset 20 and 60 mV. Defaults of the limits, from makers' prints.</summary>
    [Theory]
    [InlineData(98.3, 5, ElectrodeVerdict.Good)]
    [InlineData(93.2, 5, ElectrodeVerdict.Worn)]
    [InlineData(84.9, 5, ElectrodeVerdict.Unfit)]
    [InlineData(105.1, 5, ElectrodeVerdict.Unfit)]
    [InlineData(98.3, -20.5, ElectrodeVerdict.Worn)]
    [InlineData(98.3, 61, ElectrodeVerdict.Unfit)]
    public void Slope_and_offset_are_held_against_their_limits(double percent, double offset, ElectrodeVerdict verdict) =>
        Assert.Equal(verdict, CalibrationHealth.Of(Made(percent, offset), null, PhLimits).Verdict);

    [Fact]
    public void Each_piece_is_judged_by_itself()
    {
        // 4 to 7 is fine, 7 to 10 has 150 / 3 = 50 mV per pH, 84.5 %: the line through all would still pass.
        var made = PhCalibration.Through(
            [Electrodes.Point(4, 177, 25), Electrodes.Point(7, 0, 25), Electrodes.Point(10, -150, 25)], PhFitKind.Pieces, null);
        Assert.True(made.Line.SlopePercent > 90);
        Assert.Equal(ElectrodeVerdict.Unfit, CalibrationHealth.Of(made, null, PhLimits).Verdict);
    }

    [Fact]
    public void Slow_electrodes_are_worn_and_then_unfit()
    {
        var made = Electrodes.InZoBell;
        Assert.Equal(ElectrodeVerdict.Good, CalibrationHealth.Of(made with { Settled = TimeSpan.FromSeconds(25) }, null, OrpLimits).Verdict);
        Assert.Equal(ElectrodeVerdict.Worn, CalibrationHealth.Of(made with { Settled = TimeSpan.FromSeconds(90) }, null, OrpLimits).Verdict);
        Assert.Equal(ElectrodeVerdict.Unfit, CalibrationHealth.Of(made with { Settled = TimeSpan.FromSeconds(200) }, null, OrpLimits).Verdict);
    }

    [Fact]
    public void Drift_says_how_wrong_the_old_calibration_had_become()
    {
        // The same slope and 20 mV less: the old line reads pH 10 as 20 / 59.16 = 0.338 too high.
        var (before, now) = (Made(100, 10), Made(100, -10));
        Assert.Equal(0.338, CalibrationHealth.Drift(now, before)!.Value, 3);
        var health = CalibrationHealth.Of(now, before, PhLimits);
        Assert.Equal(ElectrodeVerdict.Worn, health.Verdict);
        Assert.Contains(health.Findings, finding => finding.Sentence.Contains("pH 0.34 too high at pH 10", StringComparison.Ordinal));
        Assert.Equal(-4, CalibrationHealth.Drift(Electrodes.InZoBell, Electrodes.InZoBell with { Offset = new OrpOffset(3) })!.Value);
        Assert.Null(CalibrationHealth.Drift(now, Electrodes.InZoBell));
    }

    [Theory]
    [InlineData(15, ElectrodeVerdict.Good)]
    [InlineData(-15.1, ElectrodeVerdict.Worn)]
    [InlineData(50.1, ElectrodeVerdict.Unfit)]
    public void The_offset_of_an_ORP_probe_has_limits_of_its_own(double offset, ElectrodeVerdict verdict) =>
        Assert.Equal(verdict, CalibrationHealth.Of(Electrodes.InZoBell with { Offset = new OrpOffset(offset) }, null, OrpLimits).Verdict);

    private static PhCalibration Made(double percent, double offset) =>
        new(PhFitKind.Line, new PhLine(Nernst.SlopeMillivoltsPerPh(25) * percent / 100, offset, 25), [Electrodes.Point(7, offset, 25)]);
}
