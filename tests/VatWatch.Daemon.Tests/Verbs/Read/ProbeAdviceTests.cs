using VatWatch.Daemon.Verbs.Read;
using VatWatch.Measurements;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Verbs.Read;

public sealed class ProbeAdviceTests
{
    [Theory]
    [InlineData(Quality.Good, null, null)]
    [InlineData(Quality.Missing, "no answer", "Is the board powered")]
    [InlineData(Quality.Fault, "there is no /dev/i2c-3; wanted an I2C adapter", "Is the board powered")]
    [InlineData(Quality.Fault, "the electrode board at 0x63 on I2C bus 3 does not answer (no acknowledge)", "Is the board powered")]
    [InlineData(Quality.Fault, "the electrode board does not understand 'X' (status 2)", "Compare the text shown")]
    [InlineData(Quality.Suspect, "not calibrated; worked out as an ideal electrode", "Calibrate it: vatwatch calibrate ph --probe acid.")]
    public void What_was_not_reached_is_looked_for_elsewhere_than_a_value_that_is_none(Quality quality, string? reason, string? advice)
    {
        var probe = SampleVats.Probe("madder-lane", "acid", Quantity.Ph) with { Driver = "i2c-text" };
        var measurement = new Measurement(probe.Vat, probe.Id, probe.Quantity, new WatchClock(TimeProvider.System).Now(), null, null, quality, reason, null);
        var given = ProbeAdvice.For(probe, measurement);
        Assert.True(advice is null ? given is null : given?.StartsWith(advice, StringComparison.Ordinal), given);
    }
}
