using VatWatch.Calibration;
using VatWatch.Testing;

namespace VatWatch.Tests.Calibration;

public sealed class CalibratorTests
{
    private readonly Calibrator _calibrator = new(Electrodes.Vat, Electrodes.Calibrations((3, Electrodes.Ph, Electrodes.TwoBuffers), (4, Electrodes.Orp, Electrodes.InZoBell)));

    [Fact]
    public void A_thermometers_offset_is_added_to_its_value()
    {
        var made = _calibrator.Apply(Electrodes.Liquor with { OffsetC = -0.3 }, 45.2, Electrodes.At(0));
        Assert.Equal(44.9, made.Value!.Value, 9);
    }

    [Fact]
    public void A_pH_electrode_is_read_with_its_calibration_at_the_liquors_temperature()
    {
        _calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        var made = _calibrator.Apply(Electrodes.Ph, -205, Electrodes.At(5));
        Assert.Equal(10.3326, made.Value!.Value, 4);
        Assert.Equal((3L, null), (made.Calibration, made.Doubt));
    }

    [Fact]
    public void An_electrode_without_a_calibration_is_taken_as_ideal_and_says_so()
    {
        var calibrator = new Calibrator(Electrodes.Vat);
        calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        var made = calibrator.Apply(Electrodes.Ph, -192.36, Electrodes.At(5));
        Assert.Equal(10.0, made.Value!.Value, 3); // 3 × 64.120 mV at 50 °C
        Assert.Null(made.Calibration);
        Assert.Contains("not calibrated", made.Doubt, StringComparison.Ordinal);
    }

    [Fact]
    public void When_the_temperature_falls_silent_its_last_value_holds_for_half_an_hour_and_is_named()
    {
        _calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        Assert.Null(_calibrator.Apply(Electrodes.Ph, -205, Electrodes.At(15)).Doubt);

        var held = _calibrator.Apply(Electrodes.Ph, -205, Electrodes.At(600));
        Assert.Equal(10.3326, held.Value!.Value, 4);
        Assert.Equal("no liquor temperature for 10 min; worked out with the last, 50.0 °C", held.Doubt);

        var gone = _calibrator.Apply(Electrodes.Ph, -205, Electrodes.At(1801));
        Assert.Null(gone.Value);
        Assert.Contains("cannot be read without it", gone.Doubt, StringComparison.Ordinal);
    }

    [Fact]
    public void Before_the_first_temperature_there_is_no_pH()
    {
        Assert.Null(_calibrator.Apply(Electrodes.Ph, -205, Electrodes.At(0)).Value);
    }

    [Fact]
    public void A_vat_without_a_temperature_probe_is_read_at_the_calibrations_temperature_and_says_so()
    {
        var vat = Electrodes.Vat with { Probes = [Electrodes.Ph] };
        var made = new Calibrator(vat, Electrodes.Calibrations((1, Electrodes.Ph, Electrodes.TwoBuffers))).Apply(Electrodes.Ph, -205, Electrodes.At(0));
        Assert.Equal(10.612, made.Value!.Value, 3);
        Assert.Equal("the vat has no temperature probe; worked out for 25 °C", made.Doubt);
    }

    [Fact]
    public void The_first_of_two_temperatures_counts_while_it_is_fresh()
    {
        var second = SampleVats.Probe("madder-lane", "bottom", Quantity.Temperature);
        var calibrator = new Calibrator(Electrodes.Vat with { Probes = [Electrodes.Liquor, second, Electrodes.Ph] });
        calibrator.TakeTemperature(second.Id, 30, Electrodes.At(0));
        calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        Assert.Equal(50, calibrator.LiquorC(Electrodes.At(5)));
        calibrator.TakeTemperature(second.Id, 31, Electrodes.At(30));
        Assert.Equal(31, calibrator.LiquorC(Electrodes.At(31)));
    }

    [Fact]
    public void An_ORP_probe_gets_its_offset_whether_bare_or_finished()
    {
        var finished = SampleVats.Probe("madder-lane", "platinum", Quantity.Orp);
        Assert.Equal(new CalibratedValue(-693, 4, null), _calibrator.Apply(Electrodes.Orp, -700, Electrodes.At(0)));
        Assert.Equal(new CalibratedValue(-693, 4, null), _calibrator.Apply(finished, -700, Electrodes.At(0)));
        Assert.Equal(new CalibratedValue(-700, null, null), new Calibrator(Electrodes.Vat).Apply(finished, -700, Electrodes.At(0)));
        Assert.Contains("not calibrated", new Calibrator(Electrodes.Vat).Apply(Electrodes.Orp, -700, Electrodes.At(0)).Doubt, StringComparison.Ordinal);
    }

    [Fact]
    public void Finished_pH_and_temperatures_pass_through()
    {
        var finished = SampleVats.Probe("madder-lane", "glass", Quantity.Ph);
        Assert.Equal(new CalibratedValue(9.8, null, null), _calibrator.Apply(finished, 9.8, Electrodes.At(0)));
        Assert.Equal(new CalibratedValue(45.2, null, null), _calibrator.Apply(Electrodes.Liquor, 45.2, Electrodes.At(0)));
    }

    [Fact]
    public void A_calibration_of_another_kind_of_electrode_is_not_used()
    {
        var calibrator = new Calibrator(Electrodes.Vat, Electrodes.Calibrations((1, Electrodes.Orp, Electrodes.TwoBuffers)));
        Assert.Null(calibrator.Apply(Electrodes.Orp, -700, Electrodes.At(0)).Calibration);
    }

    [Fact]
    public void Numbers_that_are_none_do_not_throw()
    {
        _calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        Assert.False(double.IsFinite(_calibrator.Apply(Electrodes.Ph, double.NaN, Electrodes.At(0)).Value!.Value));
        Assert.False(double.IsFinite(_calibrator.Apply(Electrodes.Orp, double.PositiveInfinity, Electrodes.At(0)).Value!.Value));
    }
}
