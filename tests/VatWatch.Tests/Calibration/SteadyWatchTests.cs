using VatWatch.Calibration;

namespace VatWatch.Tests.Calibration;

public sealed class SteadyWatchTests
{
    /// <summary>A first-order electrode with a time constant of 8 s: the residual of 180 mV falls under 0.5 mV in 30 s after some 40 s.</summary>
    [Fact]
    public void An_electrode_that_creeps_to_its_end_is_steady_only_when_it_is_there()
    {
        var steady = new SteadyWatch(SteadyWatch.Window, SteadyWatch.PhToleranceMillivolts);
        var second = 0;
        while (!steady.IsSteady && second < 300)
        {
            steady.Add(TimeSpan.FromSeconds(second), -170 + 180 * Math.Exp(-second / 8.0));
            second++;
        }

        Assert.InRange(second, 60, 110);
        Assert.Equal(-170, steady.Millivolts, 0.1);
        Assert.InRange(steady.Settling.TotalSeconds, 30, 80);
    }

    [Fact]
    public void Noise_does_not_keep_it_from_being_steady_but_drift_does()
    {
        var (still, drifting) = (new SteadyWatch(SteadyWatch.Window, 0.5), new SteadyWatch(SteadyWatch.Window, 0.5));
        for (var second = 0; second <= 30; second++)
        {
            var noise = second % 2 == 0 ? 0.4 : -0.4;
            still.Add(TimeSpan.FromSeconds(second), 5 + noise);
            drifting.Add(TimeSpan.FromSeconds(second), 5 + noise + second * 0.05);
        }

        Assert.True(still.IsSteady);
        Assert.False(drifting.IsSteady);
        Assert.Equal(1.5, drifting.TrendMillivolts!.Value, 0.2);
    }

    [Fact]
    public void A_short_look_is_never_steady()
    {
        var steady = new SteadyWatch(SteadyWatch.Window, 0.5);
        for (var second = 0; second < 26; second++)
        {
            steady.Add(TimeSpan.FromSeconds(second), 5);
            Assert.False(steady.IsSteady);
        }
    }

    [Fact]
    public void Steadiness_grows_with_the_time_at_rest_and_is_whole_at_rest()
    {
        var (still, drifting) = (new SteadyWatch(SteadyWatch.Window, 0.5), new SteadyWatch(SteadyWatch.Window, 0.5));
        var before = 0.0;
        for (var second = 0; second <= 30; second++)
        {
            still.Add(TimeSpan.FromSeconds(second), 5);
            drifting.Add(TimeSpan.FromSeconds(second), 5 + second / 15.0);
            Assert.True(still.Steadiness >= before);
            before = still.Steadiness;
        }

        Assert.Equal(1, still.Steadiness);
        Assert.Equal(0.25, drifting.Steadiness, 0.01);
    }

    [Fact]
    public void A_slow_probe_has_a_longer_window()
    {
        Assert.Equal(SteadyWatch.Window, SteadyWatch.WindowOf(TimeSpan.FromSeconds(2)));
        Assert.Equal(TimeSpan.FromMinutes(2), SteadyWatch.WindowOf(TimeSpan.FromSeconds(30)));
    }
}
