using VatWatch.Probes.Blocking;

namespace VatWatch.Tests.Probes.Blocking;

/// <summary>Error numbers of errno.h on Linux, in the sentence of System.Device 4.2.0.</summary>
public sealed class TransferErrorTests
{
    [Theory]
    [InlineData("Error 121 performing I2C data transfer.", "no acknowledge", true, false)]
    [InlineData("Error 6 performing I2C data transfer.", "no acknowledge", true, false)]
    [InlineData("Error 5 performing I2C data transfer.", "error 5", true, false)]
    [InlineData("Error 110 performing I2C data transfer.", "the bus is held: the transfer timed out", false, false)]
    [InlineData("Error 19 performing I2C data transfer.", "error 19", false, true)]
    [InlineData("Error 9 performing I2C data transfer.", "error 9", false, true)]
    [InlineData("The wire broke.", "The wire broke", true, false)]
    [InlineData("Error 99999999999 performing I2C data transfer.", "Error 99999999999 performing I2C data transfer", true, false)]
    public void The_number_decides(string message, string seen, bool mayRepeat, bool isGone)
    {
        var error = new IOException(message);
        Assert.Equal((seen, mayRepeat, isGone), (TransferError.Seen(error), TransferError.MayRepeat(error), TransferError.IsGone(error)));
    }
}
