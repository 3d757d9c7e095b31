namespace VatWatch.Tests.Calibration;

public sealed class CalibrationCacheTests
{
    [Fact]
    public void The_one_added_last_is_in_use_and_the_older_ones_stay()
    {
        var calibrations = Electrodes.Calibrations((5, Electrodes.Ph, Electrodes.TwoBuffers), (2, Electrodes.Ph, Electrodes.TwoBuffers), (3, Electrodes.Orp, Electrodes.InZoBell));
        Assert.Equal(5, calibrations.InUse(Electrodes.Ph.Id)!.Id);
        Assert.Equal(2, calibrations.Before(calibrations.InUse(Electrodes.Ph.Id)!)!.Id);
        Assert.Equal(3, calibrations.InUse(Electrodes.Orp.Id)!.Id);
        Assert.Null(calibrations.InUse(Electrodes.Liquor.Id));
        Assert.Equal(5, calibrations.Newest);
    }
}
