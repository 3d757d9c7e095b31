using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Tests.Traces;

public class ElapsedTests
{
    private static Stamp At(double utcSeconds, double monotonicSeconds, bool trusted = true) =>
        new(NightOfWarming.Start.AddSeconds(utcSeconds), TimeSpan.FromSeconds(monotonicSeconds), trusted);

    [Theory]
    [InlineData(0, 100, 10, 110.2, 10.2)] // one run: the monotonic clock
    [InlineData(0, 500, 60, 3, 60)] // the daemon restarted: the monotonic clock began anew
    [InlineData(0, 5, 3600, 40, 3600)] // another, longer run: a small monotonic difference means nothing
    [InlineData(0, 500, -60, 3, 0)] // restarted and set back: nothing is known
    public void Time_between_readings_is_that_of_the_clock_to_be_believed(double utc1, double mono1, double utc2, double mono2, double wanted) =>
        Assert.Equal(TimeSpan.FromSeconds(wanted), Elapsed.Between(At(utc1, mono1), At(utc2, mono2)));

    [Fact]
    public void A_wall_clock_that_was_corrected_does_not_stretch_the_time() =>
        Assert.Equal(TimeSpan.FromSeconds(5), Elapsed.Between(At(0, 100, trusted: false), At(86_400, 105)));
}
