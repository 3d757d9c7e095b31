using VatWatch.Calibration;
using VatWatch.Science.Electrodes;
using VatWatch.Testing;

namespace VatWatch.Tests.Calibration;

public sealed class CalibrationDueTests
{
    private static readonly CalibrationLimits Limits = CalibrationLimits.Default(Quantity.Ph);
    private readonly CalibrationCache _calibrations = Electrodes.Calibrations((1, Electrodes.Ph, Electrodes.TwoBuffers));

    [Theory]
    [InlineData(30, false)]
    [InlineData(30.1, true)]
    public void A_calibration_is_due_again_after_its_age(double days, bool due) =>
        Assert.Equal(due, CalibrationDue.Of(Electrodes.Ph, _calibrations, Limits, Electrodes.Noon.AddDays(1 + days))!.IsDue);

    [Fact]
    public void Its_age_is_said_in_days()
    {
        var due = CalibrationDue.Of(Electrodes.Ph, _calibrations, Limits, Electrodes.Noon.AddDays(43.5))!;
        Assert.Equal("The calibration of probe glass is 42 days old; wanted a new one every 30 days.", due.Sentence);
    }

    [Fact]
    public void Without_a_trusted_clock_the_age_is_not_judged() => Assert.Null(CalibrationDue.Of(Electrodes.Ph, _calibrations, Limits, null)!.IsDue);

    [Fact]
    public void A_bare_electrode_that_was_never_calibrated_is_due()
    {
        Assert.True(CalibrationDue.Of(Electrodes.Ph, new CalibrationCache(), Limits, null)!.IsDue);
    }

    [Fact]
    public void A_finished_probe_that_was_never_calibrated_is_left_alone()
    {
        Assert.Null(CalibrationDue.Of(SampleVats.Probe("v", "o", Quantity.Orp), new CalibrationCache(), Limits, Electrodes.Noon));
        Assert.Null(CalibrationDue.Of(SampleVats.Probe("v", "p", Quantity.Ph), new CalibrationCache(), Limits, Electrodes.Noon));
    }

    [Fact]
    public void An_unfit_one_that_was_kept_all_the_same_is_due_at_once()
    {
        var calibrations = Electrodes.Calibrations((1, Electrodes.Orp, Electrodes.InZoBell with { Offset = new OrpOffset(80) }));
        var due = CalibrationDue.Of(Electrodes.Orp, calibrations, CalibrationLimits.Default(Quantity.Orp), null)!;
        Assert.True(due.IsDue);
        Assert.Contains("Offset 80.0 mV", due.Sentence, StringComparison.Ordinal);
    }
}
