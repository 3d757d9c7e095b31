using VatWatch.Calibration;
using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;
using VatWatch.Measurements;
using VatWatch.Science.Electrodes;

namespace VatWatch.Charts.Tests.Figures;

public class ProbeHealthTests
{
    [Fact]
    public void Shares_are_of_all_readings_and_the_last_calibration_counts()
    {
        Measurement[] readings =
        [
            .. Enumerable.Range(0, 6).Select(minute => NightOfWarming.Good("ph-glass", Quantity.Ph, TimeSpan.FromMinutes(minute), 10) with { Calibration = minute < 3 ? 4 : 5 }),
            NightOfWarming.Good("ph-glass", Quantity.Ph, TimeSpan.FromMinutes(6), 10) with { Quality = Quality.Suspect, Reason = "noisy" },
            NightOfWarming.Bad("ph-glass", Quantity.Ph, TimeSpan.FromMinutes(7), Quality.Missing, "no reply"),
            NightOfWarming.Bad("ph-glass", Quantity.Ph, TimeSpan.FromMinutes(8), Quality.Fault, "open"),
            NightOfWarming.Bad("ph-glass", Quantity.Ph, TimeSpan.FromMinutes(9), Quality.Fault, "open"),
        ];
        var kept = new DatedCalibration(5, new ProbeId("ph-glass"), NightOfWarming.Start, OrpCalibration.In(CheckSolution.ZoBell, ReferenceElectrode.SilverChloride3M, 230, 25));
        var health = ProbeHealth.Of(ProbeTrace.Of(Logs.Record(TimeSpan.FromMinutes(9), readings)).Single(), [kept]);
        Assert.Equal((0.6, 0.1, 0.1, 0.2), (health.Good, health.Suspect, health.Missing, health.Fault));
        Assert.Equal((5, kept), (health.CalibrationRow, health.Calibration));
    }
}
