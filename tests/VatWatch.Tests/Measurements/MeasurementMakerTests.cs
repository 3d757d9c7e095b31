using VatWatch.Calibration;
using VatWatch.Measurements;
using VatWatch.Probes;
using VatWatch.Tests.Calibration;

namespace VatWatch.Tests.Measurements;

public sealed class MeasurementMakerTests
{
    private readonly Calibrator _calibrator = new(Electrodes.Vat, Electrodes.Calibrations((3, Electrodes.Ph, Electrodes.TwoBuffers)));

    [Fact]
    public void Raw_value_and_calibration_are_kept_beside_the_value()
    {
        _calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        var made = new MeasurementMaker(Electrodes.Ph, _calibrator).Make(Electrodes.Reading(Electrodes.Ph, -205, 5));
        Assert.Equal((-205, 3L, Quality.Good, null), (made.Raw!.Value, made.Calibration!.Value, made.Quality, made.Reason));
        Assert.Equal(10.3326, made.Value!.Value, 4);
    }

    [Fact]
    public void Every_doubt_is_told()
    {
        var reading = Electrodes.Reading(Electrodes.Orp, 0, 0) with { Sample = Sample.Suspect(-700, "the instrument's own warning") };
        var made = new MeasurementMaker(Electrodes.Orp, _calibrator).Make(reading);
        Assert.Equal(Quality.Suspect, made.Quality);
        Assert.Equal("the instrument's own warning; not calibrated; worked out as an ideal electrode", made.Reason);
    }

    [Fact]
    public void Without_a_temperature_the_pH_is_missing_and_the_raw_value_kept()
    {
        var made = new MeasurementMaker(Electrodes.Ph, _calibrator).Make(Electrodes.Reading(Electrodes.Ph, -205, 5));
        Assert.Equal((-205, null, Quality.Missing), (made.Raw!.Value, made.Value, made.Quality));
        Assert.NotNull(made.Reason);
    }

    [Fact]
    public void What_cannot_be_is_a_fault()
    {
        _calibrator.TakeTemperature(Electrodes.Liquor.Id, 50, Electrodes.At(0));
        foreach (var value in (double[])[600, -600, 1e308, double.NaN])
        {
            var made = new MeasurementMaker(Electrodes.Ph, _calibrator).Make(Electrodes.Reading(Electrodes.Ph, value, 5));
            Assert.Equal((null, Quality.Fault), (made.Value, made.Quality));
            Assert.InRange(made.Reason!.Length, 10, 100);
        }
    }
}
