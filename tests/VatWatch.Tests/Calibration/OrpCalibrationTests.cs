using VatWatch.Calibration;
using VatWatch.Science.Electrodes;

namespace VatWatch.Tests.Calibration;

public sealed class OrpCalibrationTests
{
    /// <summary>
    /// ZoBell 428 mV vs SHE at 25 °C, 439 at 20 °C (Standard Methods 2580 B); Light 675 (ASTM D1498); Ag/AgCl in 3 M KCl 207 and 210 mV (ISO
    /// 11271:2002 Annex C). A probe 7 mV low in each is 7 mV off.
    /// </summary>
    [Theory]
    [InlineData("ZoBell (Standard Methods 2580)", 25, 214, 7)]
    [InlineData("ZoBell (Standard Methods 2580)", 20, 222, 7)]
    [InlineData("Light", 25, 461, 7)]
    public void The_offset_is_what_the_probe_lacks_in_the_check_solution(string name, double temperatureC, double shown, double offset)
    {
        var made = OrpCalibration.In(CheckSolution.All.Single(one => one.Name == name), ReferenceElectrode.SilverChloride3M, shown, temperatureC);
        Assert.Equal(offset, made.Offset.Millivolts, 6);
        Assert.Equal(shown + offset, made.ExpectedMillivolts, 6);
        Assert.Equal(-693, made.ValueAt(-700, 45), 6);
    }

    [Fact]
    public void Quinhydrone_in_the_buffer_of_pH_7_agrees_with_the_published_potential()
    {
        // 285.6 mV vs SHE at 25 °C: 699.7 - 59.159 × 7.000.
        var made = OrpCalibration.In(CheckSolution.QuinhydronePh7, ReferenceElectrode.StandardHydrogen, 280, 25);
        Assert.Equal(285.6, made.ExpectedMillivolts, 1);
    }
}
