namespace VatWatch.Tests.Calibration;

public sealed class CalibrationCacheTests
{
    [Fact]
    public void The_one_added_last_is_in_use_and_the_older_ones_stay()
    {
        var shelf = Electrodes.Shelf((5, Electrodes.Ph, Electrodes.TwoBuffers), (2, Electrodes.Ph, Electrodes.TwoBuffers), (3, Electrodes.Orp, Electrodes.InZoBell));
        Assert.Equal(5, shelf.InUse(Electrodes.Ph.Id)!.Id);
        Assert.Equal(2, shelf.Before(shelf.InUse(Electrodes.Ph.Id)!)!.Id);
        Assert.Equal(3, shelf.InUse(Electrodes.Orp.Id)!.Id);
        Assert.Null(shelf.InUse(Electrodes.Liquor.Id));
        Assert.Equal(5, shelf.Newest);
    }
}
