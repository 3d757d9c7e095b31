using Microsoft.Extensions.Time.Testing;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline.Stages;

/// <summary>The stage in its line.</summary>
[Trait("Campaign", "faults")]
public sealed class WatchStageTests
{
    [Fact]
    public async Task After_standing_still_it_says_so_and_takes_no_probe_for_silent()
    {
        var uptime = new FakeTimeProvider();
        await using var line = new LineRig(uptime: uptime);
        await line.StartAsync();
        await Eventually.TrueAsync(() => line.Newest("simulated") is not null, "it watches");

        uptime.Advance(TimeSpan.FromMinutes(2));

        await Eventually.TrueAsync(() => line.OfDaemon("stage-restarted") is not null, "it is told");
        Assert.Equal(
            "VatWatch stood still for 2 min and watched nothing meanwhile: it was halted, or the computer slept.", line.OfDaemon("stage-restarted")?.Text.ToString());
        var state = line.StateOf("simulated", "probe-silent.simulated-t");
        FaultFigures.Hold("standstill", "2 min, by the clock that goes on", $"told; alarm of a silent probe: {state?.ToString() ?? "none"}", "told, none", state is null);
    }
}
